/** Scores what was read against what the frames truly show. */
import { assert } from '../../src/domain/assert';
import { takeAimIdentifier } from '../../src/scan/symbology/aim';
import { parseElementString } from '../../src/scan/symbology/gs1';
import { percentile } from './append';

/** One line of `truth.jsonl`. */
export interface Truth {
  readonly file: string;
  readonly symbology: string;
  readonly payload: Buffer;
}

export type Verdict = 'read' | 'missed' | 'misread';

export interface Row {
  readonly file: string;
  /** What was read, in base64, written as the truth writes it where it is the same; null for nothing. */
  readonly read: string | null;
  readonly verdict: Verdict;
  readonly symbology: string;
  readonly ms: number;
}

type Counts = Record<'frames' | Verdict, number>;

export interface Score extends Counts {
  readonly msPerFrame: { readonly p50: number; readonly p95: number };
  readonly bySymbology: Readonly<Record<string, Counts>>;
  readonly rows: readonly Pick<Row, 'file' | 'read' | 'verdict'>[];
}

const FNC1 = '\u001d';

/** The truth's lines. Throws with the line's number where one is none. */
export function parseTruth(text: string): readonly Truth[] {
  return text.split('\n').flatMap((line, index) => {
    if (line.trim() === '') return [];
    const row = JSON.parse(line) as Partial<Record<keyof Truth, unknown>>;
    const { file, symbology, payload } = row;
    assert(
      typeof file === 'string' && typeof symbology === 'string' && typeof payload === 'string',
      `line ${index + 1} of truth.jsonl has file, symbology and payload`,
    );
    return [{ file, symbology, payload: Buffer.from(payload, 'base64') }];
  });
}

/** `(01)...(21)...`, as GS1 data are printed for people; null for data that are none. */
function bracketed(data: string): string | null {
  const elements = parseElementString(data);
  return elements.ok ? elements.value.map(({ ai, value }) => `(${ai})${value}`).join('') : null;
}

/**
 * The ways in which one and the same content is written. GS1 data come with or without the AIM identifier, with or
 * without FNC1 in first place or at the end, or in brackets; all other data have one way, in two encodings of bytes.
 */
export function writingsOf(payload: string): readonly Buffer[] {
  const { carrier, data } = takeAimIdentifier(payload);
  const isGs1 = payload.startsWith(']') && carrier === 'gs1';
  const brackets = isGs1 ? bracketed(data) : null;
  const texts = isGs1 ? [data, payload, FNC1 + data, data + FNC1, ...(brackets === null ? [] : [brackets])] : [payload];
  return texts.flatMap((text) => [Buffer.from(text, 'utf8'), Buffer.from(text, 'latin1')]);
}

/** What was read of one frame, against the truth. */
export function scoreRow(truth: Truth, read: string | null, ms: number): Row {
  const { file, symbology, payload } = truth;
  if (read === null) return { file, symbology, ms, read: null, verdict: 'missed' };
  const writings = writingsOf(read);
  const same = writings.find((bytes) => bytes.equals(payload));
  const told = same ?? writings[0] ?? Buffer.alloc(0);
  return { file, symbology, ms, read: told.toString('base64'), verdict: same === undefined ? 'misread' : 'read' };
}

function countsOf(rows: readonly Row[]): Counts {
  const having = (verdict: Verdict): number => rows.filter((row) => row.verdict === verdict).length;
  return { frames: rows.length, read: having('read'), missed: having('missed'), misread: having('misread') };
}

/** All rows together; at least one. */
export function scoreOf(rows: readonly Row[]): Score {
  const times = rows.map(({ ms }) => ms);
  const symbologies = [...new Set(rows.map(({ symbology }) => symbology))].sort();
  return {
    ...countsOf(rows),
    msPerFrame: { p50: percentile(times, 50), p95: percentile(times, 95) },
    bySymbology: Object.fromEntries(
      symbologies.map((symbology) => [symbology, countsOf(rows.filter((row) => row.symbology === symbology))]),
    ),
    rows: rows.map(({ file, read, verdict }) => ({ file, read, verdict })),
  };
}
