/**
 * The state graph of a small pack in a loft that wants PINs, with right, wrong and missing ones, waits, marks that
 * disagree, restarts and breaks: nothing opens or is signed without the PIN, and no doubtful item gets into a pack.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Command } from '../../../src/domain/command';
import type { Fact } from '../../../src/domain/fact';
import type { Loft } from '../../../src/domain/loft';
import { makeStoredPin, PIN_ITERATIONS, type PinPolicy } from '../../../src/domain/pin';
import type { SightingMeaning } from '../../../src/domain/sighting';
import type { PackEvent } from '../../../src/packing/machine/event';
import { textDigest } from '../../../src/record/chain/text-digest';
import { deadEnds, explore, sayExplored, scan, type Explored, type Node } from './explore';
import { LOFT, PEOPLE, SPRAT } from '../fixture';

const STORED = makeStoredPin({
  iterations: PIN_ITERATIONS,
  salt: 'AAAAAAAAAAAAAAAAAAAAAA==',
  hash: `${'A'.repeat(43)}=`,
});
/** One packer; one inspector who has a PIN and one who has none. */
const ACTORS = ['ada', 'ines', 'iris'];

function loftWith(pin: PinPolicy): Loft {
  const people = PEOPLE.filter(({ id }) => ACTORS.includes(id)).map((person) =>
    person.id === 'iris' ? person : { ...person, pin: STORED },
  );
  const stages = SPRAT.stages.filter(({ id }) => id === 'lay').map((stage) => ({ ...stage, closes: true }));
  const findings = [
    { id: 'f', text: 'Loose', backTo: 'lay' },
    { id: 'g', text: 'Card', backTo: 'signature' },
  ];
  const finalHold = { id: 'hold', title: 'Hold', inspectorClass: 'final' as const, inspect: [], findings };
  const only = { tools: SPRAT.tools.slice(1), temporaryItems: [], stages, finalHold };
  const procedures = [{ ...SPRAT, ...only, noHolds: 'The final inspection sees all of it.' }];
  return { ...LOFT, people, procedures, settings: { ...LOFT.settings, pin } };
}

const PARTS = ['P1-BAG', 'P1-CONTAINER', 'P1-CANOPY'];

const COMMANDS: readonly Command[] = [
  ...(
    [
      'affirm',
      'negative',
      'stageComplete',
      'standBy',
      'resume',
      'releaseHold',
      'returnHold',
      'callInspector',
      'cardPlaced',
    ] as const
  ).map((name) => ({ name })),
  { name: 'nothingFound' },
  { name: 'count', count: 1, noun: 'tools' },
  { name: 'finding', number: 1 },
  { name: 'reopenStage', stage: 1 },
  { name: 'goToStage', stage: 1 },
];

/** Longer than the longest wait for a wrong PIN, in milliseconds. */
const LONG = 1_000_000;

function eventsAt({ ms, facts, snapshot }: Node): readonly PackEvent[] {
  const now = ms + 1_000;
  const badge = (id: string, pin: 'fits' | 'wrong' | null, at = now): PackEvent => {
    const meaning: SightingMeaning = {
      kind: 'badge',
      badgeDigest: textDigest(`B-${id}`),
      ...(pin === null ? {} : { pin }),
    };
    return scan(meaning, at, at);
  };
  // Inspectors at a break are turned away in the graph of the small pack; here that would only multiply refusals.
  const present = snapshot.value === 'standingBy' ? ['ada'] : ACTORS;
  const badges = present.flatMap((id) => [
    badge(id, null),
    badge(id, 'fits'),
    badge(id, 'fits', now + LONG),
    // The inspector may err to the end; for the packer one wrong one at the signature says what is asked here.
    ...(id === 'ines' ||
    (id === 'ada' && snapshot.value === 'signing' && facts.filter((fact) => isWrong(fact, id)).length < 1)
      ? [badge(id, 'wrong'), badge(id, 'wrong', now + LONG)]
      : []),
  ]);
  const component = (serial: string, uii?: string): PackEvent =>
    scan({ kind: 'component', serial, ...(uii === undefined ? {} : { uii }) }, now, now);
  // Marks matter only until the pack is identified; afterwards they are scans of the wrong kind.
  const isIdentifying = !facts.some(({ body }) => body.kind === 'assemblyAgreed');
  const marks = isIdentifying
    ? [
        component('P1-OLD-BAG-LABEL'),
        component('P1-BAG', 'D00000P2-BAG'),
        component('P2-CONTAINER', 'D00000P1-CONTAINER'),
        component('P1-CONTAINER', 'D00000P1-CONTAINER'),
      ]
    : [];
  return [
    // Stopping has the graph of the small pack; here it is offered where nothing else leads on.
    ...[...COMMANDS, ...(snapshot.value === 'blocked' ? [{ name: 'stopAndTag' } as const] : [])].map(
      (command): PackEvent => ({
        type: 'COMMAND',
        command,
        channel: 'voice',
        at: new Date(now).toISOString(),
      }),
    ),
    ...badges,
    ...PARTS.slice(0, isIdentifying ? snapshot.context.state.identified.size + 1 : 1).map((serial) =>
      component(serial),
    ),
    ...marks,
    { type: 'TICK', at: new Date(now + 120_000).toISOString() },
  ];
}

const isWrong = ({ body, by }: Fact, person: string): boolean =>
  body.kind === 'scanRefused' && body.reason === 'pin-wrong' && by === person;

/** What decides about a PIN: wrong ones in a row, the time since the last, and whether one was given since the start. */
function pinKey({ snapshot, facts, ms }: Node): unknown {
  const rows = ['ada', 'ines'].map((person) => {
    const since = facts.findLastIndex(({ body }) => body.kind === 'inspectorPresent' && body.inspector === person);
    const wrong = facts.slice(since + 1).filter((fact) => isWrong(fact, person));
    const last = wrong.at(-1)?.at;
    return [Math.min(wrong.length, 10), last === undefined ? null : ms - Date.parse(last) >= 900_000];
  });
  const left = facts.findLastIndex(({ body }) => ['restarted', 'stoodBy', 'handedOver'].includes(body.kind));
  const known = facts.slice(left + 1).some(({ body }) => body.kind === 'inspectorPresent' && body.pin === true);
  const disagree = facts.some(({ body }) => body.kind === 'scanRefused' && body.reason === 'marks-disagree');
  const sent = snapshot.context.pending?.drafts.map(({ body, by }) => [
    by,
    body.kind === 'scanRefused' ? body.reason : null,
    body.kind === 'inspectorPresent' ? body.pin : null,
  ]);
  return [rows, known, disagree, sent];
}

/** What the badge that a fact was made by said of the PIN. */
function pinOf(event: PackEvent | 'restart'): string | undefined {
  if (event === 'restart' || event.type !== 'SIGHTED' || event.sighting.meaning.kind !== 'badge') return undefined;
  return event.sighting.meaning.pin;
}

describe.each<PinPolicy>(['eachHold', 'firstUse'])('the state graph of a pack with PINs, %s', (policy) => {
  let explored: Explored = { edges: [], nodes: [] };
  beforeAll(() => {
    explored = explore({ loft: loftWith(policy), eventsAt, keyOf: pinKey });
    console.log(sayExplored(`a pack with PINs, ${policy}`, explored));
  }, 600_000);

  const sending = (kind: Fact['body']['kind']) =>
    explored.edges.flatMap((edge) =>
      edge.drafts.filter(({ body }) => body.kind === kind).map((draft) => ({ ...edge, draft })),
    );

  it('was explored to its end, records and locked-out inspectors included', () => {
    expect(explored.nodes.some(({ snapshot }) => snapshot.value === 'recorded')).toBe(true);
    expect(sending('scanRefused').some(({ draft: { body } }) => 'reason' in body && body.reason === 'pin-locked')).toBe(
      true,
    );
    expect(explored.edges.length).toBeGreaterThan(5_000);
  });

  it('has no state without a way on', () => {
    expect(deadEnds(explored)).toEqual([]);
  });

  it('brings an inspector in only with the PIN, or who gave it since the pack was last taken up', () => {
    const present = sending('inspectorPresent');
    expect(present.length).toBeGreaterThan(5);
    for (const { from, event, draft } of present) {
      if (draft.body.kind !== 'inspectorPresent') continue;
      expect(draft.body.inspector).toBe('ines');
      if (pinOf(event) === 'fits') {
        expect(draft.body.pin).toBe(true);
        continue;
      }
      expect([policy, draft.body.pin]).toEqual(['firstUse', undefined]);
      const left = from.facts.findLastIndex(({ body }) => ['restarted', 'stoodBy', 'handedOver'].includes(body.kind));
      expect(from.facts.slice(left + 1).some(({ body }) => body.kind === 'inspectorPresent' && body.pin === true)).toBe(
        true,
      );
    }
  });

  it('never brings in or signs with a wrong PIN, while a wait runs, or after ten wrong ones', () => {
    for (const { from, event, draft } of [...sending('inspectorPresent'), ...sending('signed')]) {
      expect(pinOf(event)).not.toBe('wrong');
      const person = draft.by ?? '';
      const since = from.facts.findLastIndex(({ body, by }) => body.kind === 'inspectorPresent' && by === person);
      const wrong = from.facts.slice(since + 1).filter((fact) => isWrong(fact, person));
      expect(wrong.length).toBeLessThan(10);
      const wait = [0, 0, 0, 30, 60, 120, 300, 600, 900, 900][wrong.length] ?? 0;
      const last = wrong.at(-1)?.at;
      if (last !== undefined) expect(Date.parse(draft.at) - Date.parse(last)).toBeGreaterThanOrEqual(wait * 1_000);
    }
  });

  it('signs only by the badge of the packer with the PIN', () => {
    const signed = sending('signed');
    expect(signed.length).toBeGreaterThan(0);
    for (const { event, draft } of signed) {
      expect(pinOf(event)).toBe('fits');
      expect(draft.by).toBe('ada');
    }
  });

  it('never checks in a pack in which marks disagreed', () => {
    const doubtful = explored.nodes.filter(({ facts }) =>
      facts.some(({ body }) => body.kind === 'scanRefused' && body.reason === 'marks-disagree'),
    );
    expect(doubtful.length).toBeGreaterThan(5);
    for (const { facts } of doubtful) expect(facts.map(({ body }) => body.kind)).not.toContain('checkInPassed');
  });
});
