/** A fact as bytes and back. The bytes are the evidence: they are what is stored, hashed and exported, unchanged. */
import type { z } from 'zod';
import type { Fact, FactBody, FactDraft } from '../../domain/fact';
import { ok, refused, type Refused, type Result } from '../../domain/result';
import { makeCanonicalJson } from './canonical-json';
import { BODY_SCHEMAS, ENVELOPE_SCHEMA, FACT_FORMAT, isFactKind } from './fact-schema';
import { leafHash, type Hash } from './hash';
import { makeUtf8, parseUtf8 } from './utf8';

/**
 * Far above any real fact (a log record of fifty stages has about 10 kB), and above the largest that a loft's files can
 * lead to: a million characters of a procedure or of people, of up to three bytes each, with the names of their members.
 */
export const MAX_FACT_BYTES = 4_194_304;

export type FactFault =
  | 'too-long'
  /** Not text, not JSON, or not a fact as this version writes it. */
  | 'corrupt'
  /** Written by a newer version of the kiosk. */
  | 'newer'
  | 'unknown-kind'
  /** Reads as a fact, but is not written as we write it: something else made or changed it. */
  | 'not-canonical';

/** The stored form: canonical JSON (RFC 8785) in UTF-8. `not-json` where a text or number cannot be carried by JSON. */
export function makeFactBytes(fact: Fact): Result<Uint8Array, 'not-json'> {
  const text = makeFactText(fact);
  return text.ok ? ok(makeUtf8(text.value)) : text;
}

/** The inverse of `makeFactBytes`, checked against the schema of the fact's kind. */
export function parseFactBytes(bytes: Uint8Array): Result<Fact, FactFault> {
  if (bytes.length > MAX_FACT_BYTES) return fault('too-long', `it has more than ${MAX_FACT_BYTES} bytes`);
  const text = parseUtf8(bytes);
  if (!text.ok) return fault('corrupt', 'it is not UTF-8 text');
  const json = parseJson(text.value);
  if (!json.ok) return json;
  const fact = readFact(json.value);
  if (!fact.ok) return fact;
  // Two readers must never see two facts in the same bytes (a key given twice, another spelling of a number).
  const again = makeFactText(fact.value);
  if (!again.ok || again.value !== text.value)
    return fault('not-canonical', 'it is not in the canonical form of RFC 8785');
  return fact;
}

export interface SealedFact {
  readonly fact: Fact;
  readonly bytes: Uint8Array;
  /** RFC 6962 leaf hash of `bytes`. */
  readonly leaf: Hash;
}

/** Gives a draft its place in the journal. The fact is read back from its bytes, so nothing unreadable is ever stored. */
export function sealFact(draft: FactDraft, seq: number): Result<SealedFact, 'unfit'> {
  const bytes = makeFactBytes({ seq, pack: draft.pack, at: draft.at, by: draft.by, body: draft.body });
  if (!bytes.ok) return refused('unfit', `This fact cannot be recorded. ${bytes.detail}`);
  const fact = parseFactBytes(bytes.value);
  if (!fact.ok) return refused('unfit', `This fact cannot be recorded. ${fact.detail}`);
  return ok({ fact: fact.value, bytes: bytes.value, leaf: leafHash(bytes.value) });
}

function makeFactText(fact: Fact): Result<string, 'not-json'> {
  const { seq, pack, at, by, body } = fact;
  return makeCanonicalJson({ v: FACT_FORMAT, seq, pack, at, by, body });
}

function parseJson(text: string): Result<unknown, FactFault> {
  try {
    return ok(JSON.parse(text) as unknown);
  } catch {
    return fault('corrupt', 'it is not JSON');
  }
}

function readFact(json: unknown): Result<Fact, FactFault> {
  if (isNewer(json)) return fault('newer', 'a newer version of the kiosk wrote it');
  const envelope = ENVELOPE_SCHEMA.safeParse(json);
  if (!envelope.success) return fault('corrupt', sayIssue(envelope.error));
  const { seq, pack, at, by, body } = envelope.data;
  if (!isFactKind(body.kind)) return fault('unknown-kind', `its kind "${body.kind.slice(0, 40)}" is not known here`);
  const schema: z.ZodType<FactBody> = BODY_SCHEMAS[body.kind];
  const parsed = schema.safeParse(body);
  if (!parsed.success) return fault('corrupt', sayIssue(parsed.error, 'body'));
  return ok({ seq, pack, at, by, body: parsed.data });
}

function isNewer(json: unknown): boolean {
  if (typeof json !== 'object' || json === null || !('v' in json)) return false;
  return typeof json.v === 'number' && json.v > FACT_FORMAT;
}

function sayIssue(error: z.ZodError, under?: string): string {
  const issue = error.issues[0];
  const path = [under, ...(issue?.path ?? [])].filter((part) => part !== undefined).map(String);
  return `${path.join('.') || 'it'}: ${issue?.message ?? 'does not fit'}`;
}

function fault(reason: FactFault, why: string): Refused<FactFault> {
  return refused(reason, `The record cannot be read: ${why}. Leave it as it is and verify the journal from an export.`);
}
