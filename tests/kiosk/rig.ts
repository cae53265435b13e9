/** The whole kiosk on fakes of every port and the real machine: what the table does, without sound, light or disk. */
import { expect } from 'vitest';
import type { Command } from '../../src/domain/command';
import type { Loft } from '../../src/domain/loft';
import type { Stage } from '../../src/domain/procedure';
import type { Quantity } from '../../src/domain/quantity';
import { ok, refused, type Result } from '../../src/domain/result';
import { phrasesToRead } from '../../src/kiosk/enrol/phrases-to-read';
import { createKiosk } from '../../src/kiosk/kiosk';
import type { Kiosk } from '../../src/kiosk/kiosk-face';
import type { LoadedLoft } from '../../src/kiosk/loft/loading';
import type { NewVersion } from '../../src/kiosk/new-version';
import type { RecordsPage } from '../../src/kiosk/record/records';
import type { AppView } from '../../src/screens/contract/app-view';
import type { RefusedFile } from '../../src/screens/contract/start-view';
import type { PackView } from '../../src/packing/machine/view';
import type { SightingTrouble } from '../../src/scan/sighting';
import type { HearingTrouble } from '../../src/voice/hearing';
import type { SpeakingTrouble } from '../../src/voice/speaking';
import type { VoiceSampleStore } from '../../src/voice/voice-sample-store';
import { badgeOf } from '../e2e/support/demo-badges';
import { demoLoft, demoPhrases } from '../e2e/support/demo-loft';
import { expectedLength } from '../e2e/support/packing';
import { fakeEar, type FakeEar } from '../fakes/ear';
import { fakeScanner, type FakeScanner } from '../fakes/scanner';
import { createFakeDisk, createFakeLedger, type FakeDisk, type FakeLedger } from '../fakes/ledger';
import { fakeMouth, type FakeMouth } from '../fakes/mouth';

/** The lines that are read at an enrolment. */
export const LINES = phrasesToRead(demoPhrases());

export interface RigOptions {
  readonly disk?: FakeDisk;
  readonly loft?: Loft;
  readonly refusedFiles?: readonly RefusedFile[];
  readonly ear?: HearingTrouble;
  readonly mouth?: SpeakingTrouble;
  readonly camera?: SightingTrouble;
  readonly pinFits?: (pin: string) => Promise<boolean>;
  readonly beforeStart?: (ledger: FakeLedger) => void;
  readonly records?: RecordsPage;
  readonly versions?: NewVersion;
  /** Where voices are kept; absent for a kiosk that learns none. */
  readonly sampleStore?: VoiceSampleStore;
  /** How late the loudspeaker is; absent for one that never is. */
  readonly measureDelay?: () => Promise<number | null>;
}

export interface KioskRig {
  /** Points in time that it marked. */
  readonly marks: readonly string[];
  readonly kiosk: Kiosk;
  readonly ear: FakeEar;
  readonly mouth: FakeMouth;
  readonly camera: FakeScanner;
  readonly ledger: FakeLedger;
  readonly printed: () => number;
  /** Lets every pending promise and instant sentence come to its end. */
  settle(): Promise<void>;
  scan(payload: string): Promise<void>;
  badge(person: string): Promise<void>;
  say(command: Command): Promise<void>;
  touch(command: Command): Promise<void>;
  /** Reads a line aloud. */
  read(words: string): Promise<void>;
  /** The loft's files say this from now on, or are broken. */
  files(loft: Loft | string): void;
  /** Time that passes between two acts. */
  wait(ms: number): void;
  view(): AppView;
  pack(): PackView;
}

/** Starts the kiosk and waits until it has come to rest. */
export async function startRig(options: RigOptions = {}): Promise<KioskRig> {
  const loft = options.loft ?? demoLoft();
  let files: Result<LoadedLoft, 'no-loft'> = ok({ loft, refusedFiles: options.refusedFiles ?? [] });
  const ear = fakeEar(options.ear === undefined ? {} : { trouble: options.ear });
  const mouth = fakeMouth({ instant: true, ...(options.mouth === undefined ? {} : { trouble: options.mouth }) });
  const camera = fakeScanner(options.camera === undefined ? {} : { trouble: options.camera });
  const wedge = fakeScanner();
  const ledger = createFakeLedger(options.disk ?? createFakeDisk());
  options.beforeStart?.(ledger);
  const marks: string[] = [];
  let ids = 0;
  let prints = 0;
  // A kiosk that comes back to the same disk comes back later.
  let ms = Math.max(...['2026-11-25T09:00:00.000Z', ...ledger.facts().map(({ at }) => at)].map((at) => Date.parse(at)));
  const kiosk = createKiosk({
    ear,
    mouth,
    camera,
    wedge,
    ledger,
    now: () => new Date((ms += 10)).toISOString(),
    nowMs: () => ms,
    newId: () => `id-${(ids += 1)}-${ms}`,
    loadLoft: () => Promise.resolve(files),
    loadLicences: () => Promise.resolve([{ name: 'one', version: '1', licence: 'MIT', text: 'text' }]),
    print: () => void (prints += 1),
    ...(options.pinFits === undefined ? {} : { pinFits: options.pinFits }),
    mark: (name) => void marks.push(name),
    ...(options.measureDelay === undefined ? {} : { measureDelay: options.measureDelay }),
    ...(options.sampleStore === undefined ? {} : { voices: { ear, sampleStore: options.sampleStore, phrases: LINES } }),
    ...(options.versions === undefined ? {} : { versions: options.versions }),
    ...(options.records === undefined ? {} : { records: () => options.records as RecordsPage }),
  });
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 12; turn += 1) await new Promise((done) => setTimeout(done, 0));
  };
  const scan = async (payload: string): Promise<void> => {
    wedge.see({ payload, symbology: 'unknown', reader: 'wedge' });
    await settle();
  };
  void kiosk.start();
  await settle();
  return {
    marks,
    kiosk,
    ear,
    mouth,
    camera,
    ledger,
    printed: () => prints,
    settle,
    scan,
    badge: async (person) => {
      await scan(badgeOf({ id: person }));
    },
    say: async (command) => {
      ear.speak(command);
      await settle();
    },
    touch: async (command) => {
      ms += 1_000;
      kiosk.acts.command(command, 'touch');
      await settle();
    },
    read: async (words) => {
      ear.read(words);
      await settle();
    },
    files: (next) => {
      files = typeof next === 'string' ? refused('no-loft', next) : ok({ loft: next, refusedFiles: [] });
    },
    wait: (more) => {
      ms += more;
    },
    view: () => kiosk.view.get(),
    pack: () => {
      const view = kiosk.view.get();
      if (view.screen !== 'pack') throw new Error(`no pack is shown but ${view.screen}`);
      return view.view;
    },
  };
}

/** Badge, three components and tools of the demo's sound assembly, all by voice and scanner. */
export async function toFirstStage(rig: KioskRig): Promise<void> {
  await rig.badge('hazel-orrin');
  for (const serial of ['QHB-2104-017', 'KLD-3968-552', 'RSY-7590-483']) {
    await rig.scan(serial);
    await rig.say({ name: 'affirm' });
  }
  while (rig.pack().detail.screen === 'inspection') {
    await rig.say({ name: 'nothingFound' });
    await rig.say({ name: 'affirm' });
  }
  for (const count of [2, 4, 1, 1]) {
    await rig.say({ name: 'count', count, noun: 'tools' });
    await rig.say({ name: 'affirm' });
  }
}

/** What the demo's procedures expect at the stage of this title: the screen does not tell. */
function stageOf(title: string): Stage {
  const stage = demoLoft()
    .procedures.flatMap(({ stages }) => stages)
    .find((one) => one.title === title && (one.kind === 'count' || one.kind === 'measure'));
  if (stage === undefined) throw new Error(`nothing is counted or measured at ${title}`);
  return stage;
}

function expectedCount(title: string): number {
  const stage = stageOf(title);
  return stage.kind === 'count' ? stage.expected : 0;
}

function lengthAt(title: string): Quantity {
  const procedure = demoLoft().procedures.find(({ stages }) => stages.some((one) => one.title === title));
  if (procedure === undefined) throw new Error(`no procedure has the stage ${title}`);
  return expectedLength(procedure, stageOf(title));
}

/** The one expected thing at this moment. */
export async function workOn(rig: KioskRig): Promise<void> {
  const { detail, readBack } = rig.pack();
  if (readBack !== null) return rig.say({ name: 'affirm' });
  if (detail.screen !== 'stage') throw new Error(`no work at ${detail.screen}`);
  const { kind, count, measure, stow } = detail;
  if (count !== null) return rig.say({ name: 'count', count: expectedCount(detail.title), noun: count.noun });
  if (measure !== null) return rig.say({ name: 'measured', ...lengthAt(detail.title) });
  if (kind === 'place') return rig.say({ name: 'itemPlaced' });
  if (kind === 'remove') return rig.say({ name: 'itemRemoved' });
  return rig.say({ name: stow !== null && stow.done < stow.planned ? 'stow' : 'stageComplete' });
}

/** Works on to the next hold. */
export async function toHold(rig: KioskRig): Promise<void> {
  for (let step = 0; step < 60 && rig.pack().detail.screen !== 'hold'; step += 1) await workOn(rig);
  expect(rig.pack().detail.screen).toBe('hold');
}

/** Stops the pack for damage and tags the whole assembly. */
export async function stopPack(rig: KioskRig): Promise<void> {
  await rig.say({ name: 'stopAndTag' });
  await rig.say({ name: 'finding', number: 1 });
  await rig.say({ name: 'finding', number: 4 });
  await rig.say({ name: 'affirm' });
}
