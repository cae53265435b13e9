/** Texts of facts that are put together from others are cut here to what can be stored: no pack may be locked by words. */
import type { FactBody } from '../domain/fact';

/** UTF-16 code units that the stored form of a fact takes for one text. */
const LONGEST = 2_000;

/** The text, or its beginning with a sign that it was cut; never half of a surrogate pair. */
export function cut(text: string): string {
  if (text.length <= LONGEST) return text;
  return `${text.slice(0, LONGEST - 1).replace(/[\ud800-\udbff]$/, '')}…`;
}

/** The body with every text that the machine composes cut to what can be stored. */
export function bounded(body: FactBody): FactBody {
  if (body.kind === 'stopped') return { ...body, reason: cut(body.reason) };
  if (body.kind === 'scanRefused') return { ...body, detail: cut(body.detail) };
  if (!('checks' in body)) return body;
  const checks = body.checks.map((line) => ({ ...line, label: cut(line.label), detail: cut(line.detail) }));
  return { ...body, checks };
}
