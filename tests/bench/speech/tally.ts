/** What came of each utterance, counted. */
import type { Share } from '@stowcall/web-speech/calibration/interval';
import { shareOf } from '@stowcall/web-speech/calibration/interval';

export type Decision = 'obeyed' | 'asked' | 'refused';

export interface Outcome {
  readonly wav: string;
  readonly text: string;
  /** What the grammar means by the text, as JSON; null where it does not accept it. */
  readonly wanted: string | null;
  /** The words of the decision; of several wordings the best. */
  readonly heard: string | null;
  /** Of an obeyed utterance, as JSON. */
  readonly meaning: string | null;
  readonly decision: Decision;
}

export interface Counted {
  readonly inGrammar: {
    readonly n: number;
    readonly obeyed: number;
    readonly asked: number;
    readonly refused: number;
    readonly wrong: number;
    readonly rates: Readonly<Record<'obeyed' | 'asked' | 'refused' | 'wrong', Share>>;
  };
  readonly other: {
    readonly n: number;
    readonly falselyAccepted: number;
    readonly asked: number;
    readonly rate: Share;
  };
  /** What was said, to what was done instead, to how often; right ones are left out. */
  readonly confusions: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

/** An utterance is obeyed where it is done as it was meant, and wrong where something else is done. */
export function countOutcomes(outcomes: readonly Outcome[]): Counted {
  const inGrammar = outcomes.filter(({ wanted }) => wanted !== null);
  const other = outcomes.filter(({ wanted }) => wanted === null);
  const n = inGrammar.length;
  const number = (accept: (outcome: Outcome) => boolean): number => inGrammar.filter(accept).length;
  const obeyed = number((one) => one.decision === 'obeyed' && one.meaning === one.wanted);
  const wrong = number((one) => one.decision === 'obeyed' && one.meaning !== one.wanted);
  const asked = number(({ decision }) => decision === 'asked');
  const refused = number(({ decision }) => decision === 'refused');
  const falselyAccepted = other.filter(({ decision }) => decision === 'obeyed').length;
  return {
    inGrammar: {
      n,
      obeyed,
      asked,
      refused,
      wrong,
      rates: {
        obeyed: shareOf(obeyed, n),
        asked: shareOf(asked, n),
        refused: shareOf(refused, n),
        wrong: shareOf(wrong, n),
      },
    },
    other: {
      n: other.length,
      falselyAccepted,
      asked: other.filter(({ decision }) => decision === 'asked').length,
      rate: shareOf(falselyAccepted, other.length),
    },
    confusions: confusionsOf(outcomes),
  };
}

function confusionsOf(outcomes: readonly Outcome[]): Record<string, Record<string, number>> {
  const table: Record<string, Record<string, number>> = {};
  for (const { text, wanted, heard, meaning, decision } of outcomes) {
    if (decision === 'obeyed' ? meaning === wanted : wanted === null && decision === 'refused') continue;
    const done = decision === 'obeyed' ? (heard ?? '') : `(${decision})`;
    const row = (table[wanted === null ? `other: ${text}` : text] ??= {});
    row[done] = (row[done] ?? 0) + 1;
  }
  return table;
}
