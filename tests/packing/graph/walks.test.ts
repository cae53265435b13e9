/** Random walks: whatever people, scanners, clocks and storage do, what is recorded stays sound. */
import fc from 'fast-check';
import { transition } from 'xstate';
import { describe, expect, it, vi } from 'vitest';
import type { Command, CommandName } from '../../../src/domain/command';
import { COMMAND_NAMES } from '../../../src/domain/command';
import type { FactDraft } from '../../../src/domain/fact';
import { epochMs } from '../../../src/domain/instant';
import { hasLapsed } from '../../../src/packing/steps/hold/hold-scan';
import { packMachine } from '../../../src/packing/machine/machine';
import { nextTask } from '../../../src/packing/state/next-task';
import { taskKey } from '../../../src/packing/state/task';
import { foldFacts } from '../../../src/packing/state/fold';
import { step } from '../autopilot';
import { LOFT, PEOPLE, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';
import { faultsOf } from '../whole/sound-record';

// Generous: the machine may be busy with other things.
vi.setConfig({ testTimeout: 120_000 });

const BADGES = [...PEOPLE.map(({ id }) => `B-${id}`), 'B-ada-2', 'B-nobody'];
const SERIALS = ['P1-BAG', 'P1-CONTAINER', 'P1-CANOPY', 'P1-OLD-BAG-LABEL', 'P2-BAG', 'AWAY-BAG', 'X-1'];

/** Likely and unlikely arguments for each command. */
function commandFor(name: CommandName, number: number): Command {
  if (name === 'count')
    return { name, count: number, noun: number % 3 === 0 ? 'cells' : number % 3 === 1 ? 'tools' : 'stows' };
  if (name === 'measured')
    return { name, value: [100, 16, 14, 103, 0][number % 5] ?? 0, unit: number % 2 === 0 ? 'in' : null };
  if (name === 'finding') return { name, number };
  if (name === 'goToStage' || name === 'reopenStage') return { name, stage: number };
  return { name };
}

const name = fc.constantFrom(...COMMAND_NAMES);
const number = fc.integer({ min: 0, max: 9 });

type Move = (driver: PackDriver) => void;

const move: fc.Arbitrary<Move> = fc.oneof(
  { weight: 14, arbitrary: fc.constant<Move>((driver) => void step(driver)) },
  {
    weight: 3,
    arbitrary: fc.tuple(name, number).map(
      ([one, n]): Move =>
        (driver) =>
          driver.command(commandFor(one, n)),
    ),
  },
  {
    weight: 5,
    arbitrary: fc.tuple(fc.nat(20), number).map(([index, n]): Move => (driver) => {
      const { legal } = driver.view;
      const one = legal[index % Math.max(1, legal.length)];
      // Stopping ends a walk; the likelier ways to end it are left to their own stories.
      if (one !== undefined && one.name !== 'stopAndTag') driver.command(commandFor(one.name, n), 'touch');
    }),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(...BADGES).map(
      (badge): Move =>
        (driver) =>
          driver.badge(badge),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(...BADGES).map(
      (badge): Move =>
        (driver) =>
          driver.badge(badge, 60),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(...SERIALS).map(
      (serial): Move =>
        (driver) =>
          driver.component(serial),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(1, 60, 119, 120, 500, -300).map(
      (s): Move =>
        (driver) =>
          driver.after(s),
    ),
  },
  { weight: 1, arbitrary: fc.constant<Move>((driver) => driver.tick()) },
  { weight: 1, arbitrary: fc.constant<Move>((driver) => driver.restart()) },
  {
    weight: 1,
    arbitrary: fc.constantFrom<Move>(
      (driver) => void (driver.storage = { fails: 'The storage is full.' }),
      (driver) => void (driver.storage = 'hangs'),
    ),
  },
  { weight: 3, arbitrary: fc.constant<Move>((driver) => driver.settle('works')) },
);

const walk = fc.array(move, { minLength: 20, maxLength: 160, size: 'max' });

/** Walks, and looks after each move. A walk that has scanned nothing yet is not worth much, so it begins part way. */
function walkAlong(moves: readonly Move[], look: (driver: PackDriver) => void): PackDriver {
  const driver = new PackDriver({ loft: LOFT });
  for (const one of moves) {
    one(driver);
    look(driver);
  }
  return driver;
}

/** Every `holdReleased` must follow its inspector's own scan, in time, with nothing in between that ends a presence. */
function releaseFaults(driver: PackDriver): readonly string[] {
  return driver.facts.flatMap((fact, index) => {
    const { body } = fact;
    if (body.kind !== 'holdReleased') return [];
    const before = driver.facts.slice(0, index);
    const at = before.findLastIndex((one) => one.body.kind === 'inspectorPresent');
    const present = before[at];
    if (present?.body.kind !== 'inspectorPresent') return ['released without a scan'];
    const ended = before.slice(at + 1).filter((one) => one.body.kind !== 'scanRefused');
    const inTime = epochMs(fact.at) >= epochMs(present.at) && epochMs(fact.at) < epochMs(present.at) + 120_000;
    const same = present.body.inspector === body.inspector && present.body.sighting === body.sighting;
    return [
      ...(inTime ? [] : ['released out of time']),
      ...(same && present.body.hold === body.hold ? [] : ['released on another scan']),
      ...(ended.length === 0 ? [] : [`released after ${ended.map((one) => one.body.kind).join()}`]),
    ];
  });
}

describe('whatever happens', () => {
  it('nothing is signed that is not sound, and no hold opens without a fresh scan', () => {
    let signed = 0;
    let released = 0;
    fc.assert(
      fc.property(walk, (moves) => {
        const driver = walkAlong(moves, () => undefined);
        driver.settle('works');
        for (let left = 400; left > 0 && step(driver); left -= 1);
        signed += driver.facts.some(({ body }) => body.kind === 'signed') ? 1 : 0;
        released += driver.facts.filter(({ body }) => body.kind === 'holdReleased').length;
        expect(faultsOf(driver.facts, SPRAT, PEOPLE)).toEqual([]);
        expect(releaseFaults(driver)).toEqual([]);
      }),
      { numRuns: 70 },
    );
    // A walk that never gets anywhere would prove nothing.
    expect(signed).toBeGreaterThan(25);
    expect(released).toBeGreaterThan(75);
  });

  it('folding the stored facts from scratch gives the task that the running machine has', () => {
    fc.assert(
      fc.property(walk, (moves) => {
        walkAlong(moves, (driver) => {
          expect(taskKey(nextTask(LOFT, foldFacts(LOFT, driver.facts)))).toBe(taskKey(driver.task));
        });
      }),
      { numRuns: 30 },
    );
  });

  it('facts change only by what was sent to storage, and everything that was stored is kept', () => {
    fc.assert(
      fc.property(walk, (moves) => {
        walkAlong(moves, (driver) => {
          expect(driver.snapshot.context.facts).toEqual(driver.facts);
        });
      }),
      { numRuns: 20 },
    );
  });
});

describe('what is legal is exactly what is accepted', () => {
  const at = (driver: PackDriver) => driver.now;

  function appended(
    driver: PackDriver,
    command: Command,
  ): { readonly drafts: readonly FactDraft[]; readonly changed: boolean } {
    const event = { type: 'COMMAND', command, channel: 'voice', at: at(driver) } as const;
    const [next, actions] = transition(packMachine, driver.snapshot, event);
    const drafts = actions
      .filter(({ type }) => type === 'append')
      .flatMap(({ params }) => (params as { drafts: FactDraft[] }).drafts);
    expect(next.context.facts).toBe(driver.snapshot.context.facts);
    const before = driver.snapshot;
    const changed = next.value !== before.value || next.context.utterance !== before.context.utterance;
    return { drafts, changed };
  }

  function checkEvery(driver: PackDriver): void {
    const { presence } = driver.snapshot.context;
    // Whatever comes after the time of a verdict ends it first; that has its own stories.
    if (presence !== null && hasLapsed(presence, at(driver))) return;
    const legal = new Map(driver.view.legal.map((one) => [one.name, one]));
    for (const one of COMMAND_NAMES) {
      for (const n of [1, 7]) {
        const command = commandFor(one, n);
        const { drafts, changed } = appended(driver, command);
        if (legal.has(one)) expect(changed, `${one} does something at ${driver.phase}`).toBe(true);
        else expect(drafts, `${one} is not legal at ${driver.phase}`).toEqual([]);
      }
    }
  }

  it('in every state that random walks reach, for every command', () => {
    const phases = new Set<string>();
    fc.assert(
      fc.property(walk, (moves) => {
        walkAlong(moves, (driver) => {
          phases.add(driver.view.storing ? 'storing' : driver.phase);
          checkEvery(driver);
        });
      }),
      // The states that are reached are part of the claim, so these walks are always the same ones.
      { numRuns: 8, seed: 27 },
    );
    expect([...phases]).toEqual(
      expect.arrayContaining(['identifying', 'readingBack', 'countingToolsOut', 'working', 'storing']),
    );
  });

  it('all along a sound pack, with a return, a restart and a stand-by in it', () => {
    const driver = new PackDriver({ loft: LOFT });
    const phases = new Set<string>();
    const detours = new Map<string, Move>(
      Object.entries({
        'working:stage:stows': (one: PackDriver) => one.restart(),
        'countingToolsBack:toolBack:cord': (one: PackDriver) => one.command({ name: 'standBy' }),
        'inspecting:hold:closing': (one: PackDriver) => one.command({ name: 'returnHold' }),
      }),
    );
    for (let left = 300; left > 0; left -= 1) {
      phases.add(driver.phase);
      checkEvery(driver);
      const place = `${driver.phase}:${taskKey(driver.task)}`;
      const detour = detours.get(place);
      detours.delete(place);
      if (detour !== undefined) detour(driver);
      else if (!step(driver)) break;
    }
    expect([...phases].sort()).toEqual(
      ['checkingItems', 'checkingTools', 'choosingFinding', 'choosingStage', 'countingToolsBack'].concat(
        [
          'countingToolsOut',
          'identifying',
          'inspecting',
          'inspectingPart',
          'placingCard',
          'readingBack',
          'recorded',
          'restoring',
        ],
        ['signing', 'standingBy', 'waitingForInspector', 'working'],
      ),
    );
    expect(driver.view.ended).toBe(true);
    expect(faultsOf(driver.facts, SPRAT, PEOPLE)).toEqual([]);
  });

  it('where the pack is blocked or stopped', () => {
    const driver = new PackDriver({ loft: LOFT });
    while (driver.phase !== 'blocked') step(driver, { assembly: 'AGED' });
    checkEvery(driver);
    driver.command({ name: 'stopAndTag' });
    checkEvery(driver);
    driver.command({ name: 'affirm' });
    checkEvery(driver);
    driver.command({ name: 'finding', number: 3 });
    checkEvery(driver);
    driver.command({ name: 'affirm' });
    expect(driver.phase).toBe('stopped');
    checkEvery(driver);
  });
});
