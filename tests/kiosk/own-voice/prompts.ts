/** Everything that the kiosk says, as far as the demonstration and the stories bring it to say it, and what is legal then. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createActor } from 'xstate';
import { parse } from 'yaml';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { COMPONENT_KINDS } from '../../../src/domain/component';
import type { Loft } from '../../../src/domain/loft';
import { vocabularyOf } from '../../../src/kiosk/vocabulary';
import { rehearsalMachine, rehearsalViewOf } from '../../../src/packing/rehearsal';
import type { LegalCommand } from '../../../src/packing/view';
import type { Vocabulary } from '../../../src/voice/hearing';
import { demoLoft } from '../../e2e/support/demo-loft';
import { step } from '../../packing/autopilot';
import { PackDriver } from '../../packing/pack-driver';
import type { Story } from '../../packing/story';
import { StoryTeller } from '../../packing/story';

export interface Said {
  readonly text: string;
  /** What may be said once it has been said. */
  readonly vocabulary: Vocabulary;
}

const STORIES = join(import.meta.dirname, '../../packing');
const PACKER = 'ada';
const MOST_STEPS = 400;

/** Each sentence once with each set of legal commands, in the order in which they come up. */
export function allPrompts(): readonly Said[] {
  const kept = new Map<string, Said>();
  const keep = (text: string, legal: readonly LegalCommand[]): void => {
    const said = { text, vocabulary: vocabularyOf(legal) };
    kept.set(JSON.stringify(said), said);
  };
  demoPack(keep);
  stories(keep);
  rehearsal(keep);
  return [...kept.values()];
}

type Keep = (text: string, legal: readonly LegalCommand[]) => void;

/** The demonstration's pack from the first scan to the record; at each step every command is tried that does not lead on. */
function demoPack(keep: Keep): void {
  const loft = demoLoft();
  const driver = new PackDriver({ loft, packer: personWith(loft, 'rigger') });
  const hear = (): void => keep(driver.view.prompt.say, driver.view.legal);
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    hear();
    for (const name of ['sayAgain', 'whatRemains', 'releaseHold', 'itemPlaced', 'standBy', 'resume'] as const) {
      if (name === 'itemPlaced' && driver.view.legal.some((one) => one.name === name)) continue;
      if (name === 'releaseHold' && driver.view.legal.some((one) => one.name === name)) continue;
      driver.command({ name });
      hear();
    }
    if (!demoStep(driver, loft)) break;
  }
  hear();
}

function personWith(loft: Loft, role: string): string {
  const person = loft.people.find(({ roles }) => roles.some((one) => one === role));
  if (person === undefined) throw new Error(`nobody is a ${role}`);
  return person.id;
}

/** One step of a sound pack at the demonstration's table. */
function demoStep(driver: PackDriver, loft: Loft): boolean {
  const { task, phase } = driver;
  const badgeOf = (id: string): string => loft.people.find((one) => one.id === id)?.badges[0] ?? '';
  const scan = (badge: string): void => driver.scan({ kind: 'badge', badgeDigest: badge }, badge);
  const packer = driver.snapshot.context.state.packer ?? PACKER;
  if (phase === 'readingBack' || phase === 'inspecting' || phase === 'standingBy') return step(driver);
  if (task.kind === 'identify') {
    const kind = COMPONENT_KINDS.find((one) => !driver.snapshot.context.state.identified.has(one));
    const serial = loft.assemblies[0]?.components.find((one) => one.kind === kind)?.serial;
    if (serial === undefined) return false;
    driver.component(serial);
    return true;
  }
  if (task.kind === 'sign') scan(badgeOf(packer));
  else if (task.kind === 'hold') {
    for (const { id } of loft.people.filter(({ roles }) => roles.includes('inspector'))) {
      if (driver.phase !== 'inspecting' && id !== packer) scan(badgeOf(id));
    }
    return driver.phase === 'inspecting';
  } else return step(driver);
  return true;
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
        if (name === 'count' || name === 'measured' || name === 'finding' || name === 'goToStage') continue;
        actor.send({ type: 'COMMAND', command: { name } });
        hear();
      }
    }
    actor.stop();
  }
}
