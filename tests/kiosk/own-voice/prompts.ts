/** Everything that the kiosk says, as far as the demonstration and the stories bring it to say it, and what is legal then. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createActor } from 'xstate';
import { parse } from 'yaml';
import type { Command, CommandName } from '../../../src/domain/command';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { dateOf } from '../../../src/domain/instant';
import type { Loft } from '../../../src/domain/loft';
import type { Person } from '../../../src/domain/person';
import { mayPack } from '../../../src/domain/person';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { sayUnheard } from '../../../src/kiosk/conversation';
import { enrolView } from '../../../src/kiosk/enrol/enrol-words';
import { phrasesToRead } from '../../../src/kiosk/enrol/phrases-to-read';
import { sayHearingTrouble, saySightingTrouble } from '../../../src/kiosk/devices/self-check';
import { vocabularyOf } from '../../../src/kiosk/vocabulary';
import { rehearsalMachine, rehearsalViewOf } from '../../../src/packing/rehearsal/rehearsal';
import type { LegalCommand } from '../../../src/packing/machine/view';
import type { Vocabulary } from '../../../src/voice/hearing';
import { demoLoft, demoPhrases } from '../../e2e/support/demo-loft';
import { step } from '../../packing/autopilot';
import { PackDriver } from '../../packing/pack-driver';
import type { Story } from '../../packing/story';
import { StoryTeller } from '../../packing/story';
import { autopilotLoft } from '../../screens/real-views';

export interface Said {
  readonly text: string;
  /** What may be said once it has been said. */
  readonly vocabulary: Vocabulary;
}

const STORIES = join(import.meta.dirname, '../../packing');
/** On which `PackDriver` begins. */
const DAY = dateOf('2026-11-25T09:00:00.000Z');
const MOST_STEPS = 400;
/** How far off the straight way everything is tried; five is badge, verdict, finding, stage, read-back. */
const DEPTH = process.env['STOWCALL_OWN_WORDS'] === 'whole' ? 5 : 2;

/** Each sentence once with each set of legal commands, in the order in which they come up. */
export function allPrompts(): readonly Said[] {
  const kept = new Map<string, Said>();
  const keep: Keep = (text, legal) => {
    const said = { text, vocabulary: 'commands' in legal ? legal : vocabularyOf(legal) };
    kept.set(JSON.stringify(said), said);
  };
  for (const procedure of demoLoft().procedures) demoPack(procedure.id, keep);
  stories(keep);
  rehearsal(keep);
  beside(keep);
  return [...kept.values()];
}

type Keep = (text: string, legal: readonly LegalCommand[] | Vocabulary) => void;

/** A demonstration's pack from the first scan to the end; at each step everything that can happen is tried beside it. */
function demoPack(procedure: string, keep: Keep): void {
  const loft = autopilotLoft(demoLoft());
  const assembly = loft.assemblies.find((one) => one.procedure === procedure)?.id ?? '';
  const [packer = '', other = ''] = packersOf(loft, assembly);
  const inspectors = inspectorsOf(loft, packer);
  const driver = new PackDriver({ loft, packer });
  const seen = new Map<string, number>();
  const tries: Tries = { badges: [packer, other, ...inspectors], keep, seen };
  for (let steps = 0; steps < MOST_STEPS && !driver.view.ended; steps += 1) {
    tryAll(driver, tries, DEPTH);
    if (driver.phase === 'inspecting') sendBack(driver.fork(), keep);
    if (!step(driver, { assembly, inspector: inspectors[0] ?? '' })) break;
  }
  keep(driver.view.prompt.say, driver.view.legal);
  if (!driver.view.ended) throw new Error(`${assembly} is not packed to the end`);
}

/** A return to its end, and what is said where the work begins again. */
function sendBack(driver: PackDriver, keep: Keep): void {
  const hear = (): void => keep(driver.view.prompt.say, driver.view.legal);
  driver.command({ name: 'returnHold' });
  driver.command({ name: 'finding', number: 1 });
  for (let affirmed = 0; affirmed < 4; affirmed += 1) {
    hear();
    driver.command({ name: 'affirm' });
  }
  hear();
}

interface Tries {
  readonly badges: readonly string[];
  readonly keep: Keep;
  /** Prompts, each with what was legal, and how far everything was tried from there already. */
  readonly seen: Map<string, number>;
}

/** Whatever can be said or scanned here, and at the new places to which that leads. */
function tryAll(driver: PackDriver, tries: Tries, depth: number): void {
  const { view } = driver;
  tries.keep(view.prompt.say, view.legal);
  const key = JSON.stringify([view.prompt.say, view.legal.map(({ name }) => name)]);
  if (view.ended || depth <= (tries.seen.get(key) ?? 0)) return;
  tries.seen.set(key, depth);
  for (const happen of eventsAt(driver, tries.badges)) {
    const there = driver.fork();
    happen(there);
    tryAll(there, tries, depth - 1);
  }
}

type Event = (driver: PackDriver) => void;

/** Every legal command with numbers that fit and that do not, those that are not legal, badges, and a pause in time. */
function eventsAt(driver: PackDriver, badges: readonly string[]): readonly Event[] {
  const commands = driver.view.legal.flatMap(({ name, input }) => formsOf(name, input));
  const refusedOne = COMMAND_NAMES.filter((name) => !driver.view.legal.some((one) => one.name === name)).slice(0, 3);
  return [
    ...[...commands, ...refusedOne.flatMap((name) => formsOf(name, { kind: 'press' }))].map(
      (command): Event =>
        (one) =>
          one.command(command),
    ),
    ...badges.map(
      (id): Event =>
        (one) =>
          one.badge(`B-${id}`),
    ),
    (one) => {
      one.after(10_000);
      one.tick();
    },
  ];
}

function formsOf(name: CommandName, input: LegalCommand['input']): readonly Command[] {
  if (name === 'count') {
    const noun = input.kind === 'count' ? input.noun : 'stows';
    return [1, 2, 3, 6, 250].map((count) => ({ name, count, noun }));
  }
  if (name === 'measured') return [0, 1, 40, 5_000].map((value) => ({ name, value, unit: null }));
  const numbers = input.kind === 'choice' ? input.options.map(({ number }) => number) : [1];
  if (name === 'finding') return numbers.map((number) => ({ name, number }));
  if (name === 'goToStage' || name === 'reopenStage') return numbers.slice(0, 2).map((stage) => ({ name, stage }));
  return [{ name }];
}

function packersOf(loft: Loft, assembly: string): readonly string[] {
  const model = loft.assemblies.find(({ id }) => id === assembly)?.model ?? '';
  return loft.people.filter((person) => mayPack(person, model, DAY).ok).map(({ id }) => id);
}

function inspectorsOf(loft: Loft, packer: string): readonly string[] {
  return loft.people.filter(({ id, roles }) => id !== packer && roles.includes('inspector')).map(({ id }) => id);
}

/** The stories go through every refusal. */
function stories(keep: Keep): void {
  for (const file of readdirSync(STORIES).filter((name) => name.endsWith('.story.yaml'))) {
    for (const { lines } of parse(readFileSync(join(STORIES, file), 'utf8')) as readonly Story[]) {
      const teller = new StoryTeller();
      let isOpen = false;
      for (const line of lines.split('\n').map((one) => one.trim())) {
        if (line === '' || line.startsWith('#')) continue;
        teller.play(line);
        isOpen ||= line.startsWith('open');
        if (isOpen) keep(teller.pack.view.prompt.say, teller.pack.view.legal);
      }
    }
  }
}

function rehearsal(keep: Keep): void {
  for (const procedure of demoLoft().procedures) {
    const actor = createActor(rehearsalMachine, { input: { procedure, rate: 1 } }).start();
    const hear = (): void => {
      const { prompt, legal } = rehearsalViewOf(actor.getSnapshot());
      keep(prompt.say, legal);
    };
    hear();
    for (let stage = 1; stage < procedure.stages.length; stage += 1) {
      for (const name of stage === 1 ? COMMAND_NAMES : (['next'] as const)) {
        if (name === 'finish') continue;
        if (name === 'count' || name === 'measured' || name === 'finding') continue;
        if (name === 'goToStage' || name === 'reopenStage') continue;
        actor.send({ type: 'COMMAND', command: { name } });
        hear();
      }
    }
    actor.stop();
  }
}

/** What is said beside the prompts, whatever is legal then, and what is said while a voice is taught. */
function beside(keep: Keep): void {
  const everything: Vocabulary = { commands: COMMAND_NAMES, nouns: COUNT_NOUNS };
  const book = demoPhrases();
  keep(sayUnheard({ kind: 'notHeard' }), everything);
  keep(sayUnheard({ kind: 'notHeard', isTooLoud: true }), everything);
  const phrases = book.allPhrases(everything, 3).map(({ phrase }) => phrase);
  for (const [index, phrase] of phrases.entries()) {
    keep(sayUnheard({ kind: 'ambiguous', candidates: [phrase] }), everything);
    keep(sayUnheard({ kind: 'ambiguous', candidates: [phrase, phrases[index + 1] ?? 'affirm'] }), everything);
  }
  for (const trouble of ['denied', 'absent', 'unplugged', 'engine', 'model'] as const) {
    keep(sayHearingTrouble(trouble).text, everything);
    if (trouble !== 'model') keep(saySightingTrouble(trouble), everything);
  }
  for (const text of enrolments()) keep(text, everything);
}

/** A line that is read stands in for a command: what the kiosk says of it must not be kept as a sample. */
function enrolments(): readonly string[] {
  const person = demoLoft().people[0] as Person;
  const phrases = phrasesToRead(demoPhrases());
  const said = (step: Parameters<typeof enrolView>[0]): string => enrolView(step, null, 0).prompt.say;
  const lines = phrases.flatMap((_, at) =>
    ([null, 'silence', 'not-these-words', 'too-loud'] as const).flatMap((miss) =>
      [0, 1].flatMap((tries) => {
        const reading = { phrases, at, tries, taken: [], miss, silences: 0 };
        return [true, false].map((aloud) => said({ at: 'reading', person, reading, replaces: false, aloud }));
      }),
    ),
  );
  const reading = { phrases, at: 5, tries: 0, taken: [], miss: null, silences: 0 };
  return [
    ...lines,
    said({ at: 'badge' }),
    said({ at: 'stopped', person, reading, replaces: true }),
    said({ at: 'ready', person, lines: 17, kept: 0, damaged: 1, mayRead: true }),
    said({ at: 'ready', person, lines: 17, kept: 9, damaged: 0, mayRead: true }),
    said({ at: 'ready', person, lines: 17, kept: 9, damaged: 0, mayRead: false }),
    ...(['kept', 'erased', 'nothing'] as const).map((outcome) =>
      said({ at: 'done', person, outcome, taken: 3, of: 17 }),
    ),
  ].filter((text) => text !== '');
}
