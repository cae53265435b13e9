/** What the line on a printed card must say, from the signed fact alone: the verifier's own writing of it. */
import type { LogRecord } from '../../../domain/log-record';

/** Longer lines are cut by the format. */
const LONGEST = 400;

/** Text in which nothing can be taken for the end of a part. */
const part = (text: string): string => {
  const words = text.split(/[\s,;]+/).filter((word) => word !== '');
  return words.length === 0 ? 'none' : words.join(' ');
};

/** `edition` is that of the pack: cards of edition 1 call the date of the next packing "due". */
export function cardLineOf(seq: number, record: LogRecord, edition: number): string {
  const { packedOn, nextDue, packers, serials } = record;
  const signer = packers[packers.length - 1];
  const items = serials.map(({ kind, serial }) => [part(kind), part(serial)].join(' '));
  const said = ['card', `fact ${String(seq)}`, `packed ${packedOn}`, `${edition >= 2 ? 'last' : 'due'} ${nextDue}`];
  const line = [...said, `by ${part(signer?.certificate ?? '')}`, items.join(' / ')].join('; ');
  return line.length > LONGEST ? line.slice(0, LONGEST) : line;
}

/** The number of the fact that a card's line names; null where it is no card's line. */
export function factOfCard(line: string): number | null {
  const [, seq] = /^card; fact (0|[1-9]\d{0,15});/.exec(line) ?? [];
  return seq === undefined ? null : Number(seq);
}
