/** ISO/IEC 15434 envelopes: `[)>` RS, format envelopes, EOT; formats 05, 06 and 12 are the ones that name items. */
import { assert } from '../../domain/assert';
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';

const RS = '\u001e';
const GS = '\u001d';
const EOT = '\u0004';
const HEADER = `[)>${RS}`;

export const ENVELOPE_FORMATS = ['05', '06', '12'] as const;
/** 05: GS1 application identifiers; 06: MH10.8.2 data identifiers; 12: text element identifiers. */
export type EnvelopeFormat = (typeof ENVELOPE_FORMATS)[number];

export interface FormatEnvelope {
  readonly format: EnvelopeFormat;
  /** The data elements between the separators, identifiers still on them. */
  readonly fields: readonly string[];
}

export type EnvelopeFault = 'envelope-broken' | 'envelope-format';

/** True when a payload claims to be an envelope. */
export function looksLikeEnvelope(payload: string): boolean {
  return payload.startsWith('[)>');
}

/** Reads the whole message. A missing end is a cut-off reading and is refused. */
export function parseEnvelope(payload: string): Result<readonly FormatEnvelope[], EnvelopeFault> {
  const broken = refused('envelope-broken', 'This mark was not read to its end. Scan it again.');
  if (!payload.startsWith(HEADER) || !payload.endsWith(RS + EOT)) return broken;
  const inner = payload.slice(HEADER.length, -(RS + EOT).length);
  if (inner === '' || inner.includes(EOT)) return broken;
  const envelopes: FormatEnvelope[] = [];
  for (const part of inner.split(RS)) {
    const format = ENVELOPE_FORMATS.find((known) => part.startsWith(known + GS));
    if (format === undefined) {
      return refused('envelope-format', 'This mark is written in a form that names no item here.');
    }
    const fields = part.slice(format.length + GS.length).split(GS);
    if (fields.some((field) => field === '')) return broken;
    envelopes.push({ format, fields });
  }
  return ok(envelopes);
}

/** The message for these envelopes; no field may be empty or hold a separator. */
export function makeEnvelope(envelopes: readonly FormatEnvelope[]): string {
  assert(envelopes.length > 0, 'an envelope message has at least one format envelope');
  const parts = envelopes.map(({ format, fields }) => {
    const clean = fields.every((field) => field !== '' && ![RS, GS, EOT].some((mark) => field.includes(mark)));
    assert(clean && fields.length > 0, 'a data element is neither empty nor holds a separator');
    return format + GS + fields.join(GS) + RS;
  });
  return HEADER + parts.join('') + EOT;
}
