/** Texts of facts that are put together from others are cut here to what can be stored: no pack may be locked by words. */
import type { FactBody } from '../../domain/fact';

/** UTF-16 code units that the stored form of a fact takes for one text. */
const LONGEST = 2_000;
/** Members that the stored form takes in one list. */
const MOST = 1_000;

/** The text, or its beginning with a sign that it was cut; never half of a surrogate pair. */
export function cut(text: string, longest = LONGEST): string {
  if (text.length <= longest) return text;
  return `${text.slice(0, longest - 1).replace(/[\ud800-\udbff]$/, '')}…`;
}

/** The list, or its beginning and how many more there are: the facts of the pack hold every one of them. */
function few(texts: readonly string[]): readonly string[] {
  if (texts.length <= MOST) return texts;
  const kept = texts.slice(0, MOST - 1);
  return [...kept, `And ${String(texts.length - kept.length)} more, which the journal holds.`];
}

/** The value with every text in it cut. Names and numbers are far shorter and stay as they are. */
function cutWithin<T>(value: T): T {
  const within = (one: unknown): unknown => {
    if (typeof one === 'string') return cut(one);
    if (Array.isArray(one)) return one.map(within);
    if (typeof one !== 'object' || one === null) return one;
    return Object.fromEntries(Object.entries(one).map(([key, member]) => [key, within(member)]));
  };
  return within(value) as T;
}

/** The body with every text that the machine composes cut to what can be stored, the log record's among them. */
export function bounded(body: FactBody): FactBody {
  const whole = cutWithin(body);
  if (whole.kind !== 'signed') return whole;
  return { ...whole, record: { ...whole.record, defects: few(whole.record.defects) } };
}
