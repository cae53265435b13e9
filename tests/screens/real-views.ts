/** Every view that the demo loft's packs and rehearsals give, from the first scan to the signed record. */
import { readdirSync, readFileSync } from 'node:fs';
import { createActor } from 'xstate';
import type { Loft } from '../../src/domain/loft';
import { loadLoft } from '../../src/loft/load-loft';
import type { AppView } from '../../src/screens/contract/app-view';
import { rehearsalMachine, rehearsalViewOf } from '../../src/packing/rehearsal/rehearsal';
import { textDigest } from '../../src/record/chain/text-digest';
import { step } from '../packing/autopilot';
import { PackDriver } from '../packing/pack-driver';

export interface RealView {
  readonly name: string;
  readonly view: AppView;
}

const DATA = new URL('../../demo-data/', import.meta.url);

/** The demo loft as it is shipped. */
function demoLoft(): Loft {
  const paths = ['loft.yaml', 'people.yaml', 'assemblies.yaml'];
  const procedures = readdirSync(new URL('procedures/', DATA)).map((name) => `procedures/${name}`);
  const files = [...paths, ...procedures].map((path) => ({ path, text: readFileSync(new URL(path, DATA), 'utf8') }));
  const { loft } = loadLoft(files);
  if (loft === null) throw new Error('the demo loft does not load');
  return loft;
}

/** The same loft with serials and badges that the autopilot can make up: "<assembly>-BAG", "B-<person>". */
export function autopilotLoft(loft: Loft): Loft {
  return {
    ...loft,
    people: loft.people.map((person) => ({ ...person, badges: [textDigest(`B-${person.id}`)] })),
    assemblies: loft.assemblies.map((assembly) => ({
      ...assembly,
      components: assembly.components.map((component) => ({
        ...component,
        serial: `${assembly.id}-${component.kind.toUpperCase()}`,
      })),
    })),
  };
}

interface Cast {
  readonly assembly: string;
  readonly packer: string;
  readonly inspector: string;
}

const MOST_STEPS = 400;

/** Where asking does not change where the pack stands, the brief prompt and the answer are views as well. */
function ask(driver: PackDriver, collect: (name: string) => void): void {
  const may = (name: string): boolean => driver.view.legal.some((legal) => legal.name === name);
  if (driver.phase === 'readingBack' || driver.phase === 'choosingFinding' || !may('whatRemains')) return;
  driver.command({ name: 'whatRemains' });
  collect('what remains');
}

/** Once each: a hold that is returned, a measurement outside its band, a refused badge, a pause. */
function happen(driver: PackDriver, done: Set<string>, collect: (name: string) => void): void {
  const once = (name: string, act: () => void): void => {
    if (done.has(name)) return;
    done.add(name);
    act();
    collect(name);
  };
  const { task, phase } = driver;
  if (task.kind === 'hold' && phase === 'waitingForInspector') {
    once('packer at a hold', () => driver.badge(`B-${driver.snapshot.context.state.packer ?? ''}`));
  }
  if (task.kind === 'hold' && phase === 'inspecting') {
    once('hold returned', () => driver.command({ name: 'returnHold' }));
    if (driver.phase === 'choosingFinding') {
      driver.command({ name: 'finding', number: 1 });
      collect('stage to go back to');
    }
  }
  if (phase === 'working' && task.kind === 'stage') {
    if (task.stage.kind === 'measure') {
      once('measured outside', () => {
        driver.command({ name: 'measured', value: 55.5625, unit: null });
        collect('outside read back');
        driver.command({ name: 'affirm' });
      });
    }
    once('standing by', () => driver.command({ name: 'standBy' }));
  }
}

function packViews(loft: Loft, { assembly, packer, inspector }: Cast): readonly RealView[] {
  const driver = new PackDriver({ loft, packer });
  const views: RealView[] = [];
  const collect = (what: string): void => {
    const view = driver.view;
    const { screen } = view.detail;
    views.push({ name: `${assembly} ${String(views.length)}: ${screen}, ${what}`, view: { screen: 'pack', view } });
  };
  const done = new Set<string>();
  collect('begins');
  for (let steps = 0; steps < MOST_STEPS && !driver.view.ended; steps += 1) {
    ask(driver, collect);
    happen(driver, done, collect);
    if (!step(driver, { assembly, inspector })) break;
    collect(driver.phase);
  }
  if (!driver.view.ended) throw new Error(`${assembly} is not packed to the end`);
  return views;
}

function rehearsalViews(loft: Loft): readonly RealView[] {
  return loft.procedures.flatMap((procedure) => {
    const actor = createActor(rehearsalMachine, { input: { procedure, rate: loft.settings.speakingRate } }).start();
    return procedure.stages.map(({ number }) => {
      actor.send({ type: 'COMMAND', command: { name: 'goToStage', stage: number } });
      const view = rehearsalViewOf(actor.getSnapshot());
      return {
        name: `${procedure.id}, rehearsal of stage ${String(number)}`,
        view: { screen: 'rehearsal' as const, view },
      };
    });
  });
}

/** All of them, in order. */
export function realViews(): readonly RealView[] {
  const loft = demoLoft();
  const asked = autopilotLoft(loft);
  return [
    ...packViews(asked, { assembly: 'wendle-main-4', packer: 'hazel-orrin', inspector: 'ines-calloway' }),
    ...packViews(asked, { assembly: 'corrow-cargo-9', packer: 'hazel-orrin', inspector: 'ines-calloway' }),
    ...rehearsalViews(loft),
  ];
}
