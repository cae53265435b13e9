/** Recomputes what a record must say of defects, word by word, from the facts and the procedure that was in force. */
import type { LogRecord } from '../../../domain/log-record';
import type { Procedure } from '../../../domain/procedure';
import type { Account, BodyOf } from './account';
import { findingWords } from './hold-findings';
import { lengthText } from '../sums/lengths';

/** What stands before and after the name of whoever found it. */
type Sentence = readonly [before: string, after: string];

/** A defect on the record in which somebody is named. */
export interface FoundBy {
  readonly id: string;
  readonly name: string;
}

/** A list in a fact holds no more; its last line then says how many are left out. */
const MOST = 1_000;

/** One sentence for each defect that does not say what happened, and who is said to have found the others. */
export function againstDefects(
  account: Account,
  record: LogRecord,
): { readonly wrong: readonly string[]; readonly foundBy: readonly FoundBy[] } {
  const { procedure, returns, outsides } = account;
  const count = returns.length + outsides.length;
  const stated = Math.min(count, MOST);
  const wrong =
    record.defects.length === stated ? [] : ['The record’s number of defects is not what the facts amount to.'];
  const foundBy: FoundBy[] = [];
  if (procedure === null) return { wrong, foundBy };
  const differs = (at: number): void =>
    void wrong.push(`Defect ${String(at + 1)} on the record does not say what the facts amount to.`);
  record.defects.slice(0, stated).forEach((text, at) => {
    const back = returns[at];
    if (count > MOST && at === MOST - 1) {
      if (text !== `And ${String(count - at)} more, which the journal holds.`) differs(at);
      return;
    }
    if (back !== undefined) {
      const name = between(text, returned(procedure, back));
      if (name === null) differs(at);
      else foundBy.push({ id: back.inspector, name });
    } else if (text !== outside(account, procedure, outsides[at - returns.length])) differs(at);
  });
  return { wrong, foundBy };
}

function between(text: string, [before, after]: Sentence): string | null {
  const fits = text.startsWith(before) && text.endsWith(after) && text.length > before.length + after.length;
  return fits ? text.slice(before.length, text.length - after.length) : null;
}

function returned({ stages, finalHold }: Procedure, body: BodyOf<'holdReturned'>): Sentence {
  const isFinal = finalHold?.id === body.hold;
  const hold = isFinal ? finalHold : stages.find((stage) => stage.hold?.id === body.hold)?.hold;
  const backTo = isFinal && body.backTo === 'signature' ? 'the signature' : named(stages, body.backTo);
  const finding = hold === undefined || hold === null ? null : findingWords(hold, body);
  return [
    `Hold ${hold?.title ?? body.hold}: ${finding ?? body.finding}, found by `,
    `. Done again from ${backTo} and ${isFinal ? 'signed' : 'inspected'} again.`,
  ];
}

function outside(account: Account, { stages }: Procedure, body: BodyOf<'measured'> | undefined): string | null {
  if (body === undefined) return null;
  const { value, expected, deviation } = body;
  const then = account.done(body.stage).measured;
  const off = lengthText({ value: Math.abs(deviation), unit: expected.unit });
  return (
    `At ${named(stages, body.stage)}: ${lengthText(value)} measured, ${lengthText(expected)} expected, ` +
    `${off} too ${deviation > 0 ? 'long' : 'short'}.${then === null ? '' : ` Put right: ${lengthText(then)}.`}`
  );
}

/** A stage as a record names it; its id where the procedure has none. */
export function named(stages: Procedure['stages'], id: string): string {
  const stage = stages.find((one) => one.id === id);
  return stage === undefined ? id : `stage ${String(stage.number)}, ${stage.title}`;
}
