/** What the enrolment says and shows at each step. Every sentence that is spoken stands on the screen too. */
import type { EnrolStep, EnrolView } from '../../screens/contract/enrol-view';
import type { Notice } from '../../packing/machine/view';
import { legalAt, type Step } from './enrol-step';
import type { Miss } from './patient-sample';
import { lineOf, LINES_MIN, type Reading } from './reading';

type At<K extends Step['at']> = Extract<Step, { at: K }>;

const MISSES: Readonly<Record<Miss, string>> = {
  silence: 'Nothing was heard.',
  'not-these-words': 'That was not heard as this line.',
  'too-loud': 'Too loud here. Come nearer to the microphone.',
};

/** What is promised before anything is read; the sample store and its tests keep it. */
const ABOUT = [
  { name: 'Kept', text: 'How these lines sound when you say them, as rows of numbers. No recording, no name.' },
  { name: 'Where', text: 'On this kiosk alone. Never in a record, an export or a copy.' },
  {
    name: 'What for',
    text: 'Your commands are heard more surely in noise while you work at a pack. It opens nothing: your badge alone says who you are.',
  },
  { name: 'To erase it', text: 'Come back here, scan your badge, and press Erase my voice. It is gone at once.' },
];

/** The view of a step; `utterance` changes exactly when something is to be said anew. */
export function enrolView(step: Step, notice: Notice | null, utterance: number): EnrolView {
  const { say, show } = wordsAt(step);
  const told = notice === null || say === '' ? '' : `${notice.text} `;
  return {
    step: drawn(step),
    person: step.at === 'badge' ? null : step.person.name,
    prompt: { key: `enrol:${String(utterance)}`, say: `${told}${say}`, show },
    notice,
    legal: legalAt(step),
  };
}

function drawn(step: Step): EnrolStep {
  switch (step.at) {
    case 'badge':
    case 'stopped':
    case 'storing':
      return { at: step.at };
    case 'ready':
      return { at: 'ready', about: ABOUT };
    case 'reading': {
      const { phrases, at } = step.reading;
      return { at: 'reading', words: lineOf(step.reading) ?? '', number: at + 1, of: phrases.length };
    }
    case 'done':
      return { at: 'done', outcome: step.outcome };
  }
}

interface Words {
  readonly say: string;
  readonly show: string;
}

const both = (text: string): Words => ({ say: text, show: text });

function wordsAt(step: Step): Words {
  switch (step.at) {
    case 'badge':
      return both('Scan your badge, to teach the kiosk your voice or to erase it.');
    case 'ready':
      return both(readyWords(step));
    case 'reading':
      return readingWords(step);
    case 'stopped':
      return both(
        `${linesHeard(step.reading)} Keep them${step.replaces ? ', in place of the former ones' : ''}, or nothing?`,
      );
    case 'storing':
      return { say: '', show: 'One moment.' };
    case 'done':
      return both(doneWords(step));
  }
}

function readyWords({ lines, kept, damaged, mayRead }: At<'ready'>): string {
  if (!mayRead) return 'Your voice is kept here. You can erase it.';
  const ask = `Read ${String(lines)} short lines aloud. It takes about a minute.`;
  if (kept > 0) return `Your voice is kept here, in ${lineCount(kept)}. To replace it, read again.`;
  return damaged > 0 ? `What is kept of your voice cannot be used. ${ask}` : ask;
}

/**
 * No sentence ends in the line itself: heard too late, it would be kept as a sample of a person's voice.
 * Lines are read from the screen in silence, which keeps the minute; the kiosk speaks where something went wrong.
 */
function readingWords({ reading, aloud }: At<'reading'>): Words {
  const { at, tries, miss } = reading;
  const line = lineOf(reading) ?? '';
  if (aloud) return both(`The line ${line} is to be read.`);
  if (at === 0 && tries === 0 && miss === null) {
    return both(`Read each line aloud, as you say it while you pack. The line ${line} comes first.`);
  }
  if (miss === null) return { say: '', show: `Say: ${sentenceOf(line)}` };
  return both(
    `${MISSES[miss]} ${tries > 0 ? `Read ${line} once more.` : `That line is left out. The line ${line} follows.`}`,
  );
}

function doneWords({ outcome, taken, of }: At<'done'>): string {
  if (outcome === 'erased') return 'Erased. Nothing of your voice is left on this kiosk.';
  if (outcome === 'nothing') {
    const isTooFew = taken > 0 && taken < LINES_MIN;
    return `${isTooFew ? `Fewer than ${String(LINES_MIN)} lines are of no use. ` : ''}Nothing was kept of this reading.`;
  }
  const all = taken === of ? `all ${String(of)} lines` : `${String(taken)} of ${String(of)} lines`;
  return `Kept: ${all}. From your next pack on, the kiosk knows your voice.`;
}

function linesHeard({ taken, phrases }: Reading): string {
  return `${String(taken.length)} of ${lineCount(phrases.length)} were heard.`;
}

function lineCount(count: number): string {
  return count === 1 ? '1 line' : `${String(count)} lines`;
}

function sentenceOf(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
