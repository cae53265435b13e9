/** The whole state graph of a small pack: a hold opens only by a fresh act of a qualified person who has not packed. */
import { beforeAll, describe, expect, it } from 'vitest';
import { phaseOf } from '../../../src/packing/machine/machine';
import { nextTask } from '../../../src/packing/state/next-task';
import { taskKey } from '../../../src/packing/state/task';
import { viewOf } from '../../../src/packing/machine/view-of';
import { deadEnds, explore, sayExplored, type Edge, type Explored, type Node } from './explore';
import { QUALIFIED, loft, eventsAt, openHolds, expectWhole } from './small-pack';

describe('the whole state graph of a small pack', () => {
  let explored: Explored = { edges: [], nodes: [] };
  let edges: readonly Edge[] = [];
  let nodes: readonly Node[] = [];
  // Generous: the machine may be busy with other things.
  beforeAll(() => {
    explored = explore({ loft, eventsAt });
    ({ edges, nodes } = explored);
    console.log(sayExplored('a small pack', explored));
  }, 600_000);

  it('is large enough to be worth exploring, and was explored to its end', () => {
    expect(nodes.length).toBeGreaterThan(1_000);
    expect(edges.length).toBeGreaterThan(20_000);
  });

  const phases = () => new Set(nodes.map(({ snapshot }) => phaseOf(snapshot)));

  it('reaches every phase, the blocked one by a finding before packing, so that it says something about each', () => {
    expect([...phases()].sort()).toEqual(
      [
        'blocked',
        'checkingItems',
        'checkingTools',
        'choosingCause',
        'choosingComponent',
        'choosingFinding',
        'choosingPoint',
        'choosingStage',
        'countingToolsBack',
        'countingToolsOut',
        'handOverLeaving',
        'handOverLook',
        'handOverReason',
        'identifying',
        'inspecting',
        'inspectingPart',
        'placingCard',
      ].concat([
        'readingBack',
        'recorded',
        'restoring',
        'signing',
        'standingBy',
        'stopped',
        'waitingForInspector',
        'working',
      ]),
    );
  });

  it('has no state without a way on and something to say', () => {
    expect(deadEnds(explored)).toEqual([]);
    for (const { snapshot } of nodes) {
      const { prompt } = viewOf(snapshot);
      expect(prompt.say.trim()).not.toBe('');
      expect(prompt.show.trim()).not.toBe('');
    }
  });

  it('sends a release only on "affirm", from a read-back, by the inspector present, in time, who has not packed', () => {
    const releasing = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'holdReleased'));
    expect(releasing.length).toBeGreaterThan(10);
    for (const { from, event, drafts } of releasing) {
      const { context } = from.snapshot;
      const { presence } = context;
      const said =
        event === 'restart'
          ? null
          : event.type === 'COMMAND'
            ? event.command
            : event.type === 'SIGHTED'
              ? event.sighting.meaning
              : null;
      expect(JSON.stringify(said)).toContain('affirm');
      expect(from.snapshot.value).toBe('readingBack');
      expect(context.readBack?.words.show).toMatch(/^Release/);
      expect(presence).not.toBeNull();
      const at = event !== 'restart' && 'at' in event ? Date.parse(event.at) : Number.NaN;
      expect(at).toBeGreaterThanOrEqual(Date.parse(presence!.at));
      expect(at).toBeLessThan(Date.parse(presence!.at) + 120_000);
      for (const { body, by } of drafts) {
        if (body.kind !== 'holdReleased') continue;
        expect(body.inspector).toBe(presence!.inspector);
        expect(by).toBe(presence!.inspector);
        expect(body.sighting).toBe(presence!.sighting);
        expect(QUALIFIED).toContain(body.inspector);
        expect(context.state.packers).not.toContain(body.inspector);
      }
    }
  });

  it('opens a hold by storing its release and by nothing else: no return, reopening, hand-over, restart or replay', () => {
    let opened = 0;
    for (const { from, event, to } of edges) {
      const before = openHolds(from);
      for (const hold of openHolds(to).filter((one) => !before.includes(one))) {
        opened += 1;
        expect(event).toMatchObject({ type: 'STORED' });
        const sent = from.snapshot.context.pending?.drafts.map(({ body }) => body) ?? [];
        expect(sent.some((body) => body.kind === 'holdReleased' && body.hold === hold)).toBe(true);
      }
    }
    expect(opened).toBeGreaterThan(10);
  });

  it('leaves a hold only by a release, a return, a correction or reopening of work before it, or the end', () => {
    const ways = new Set<string>();
    for (const { from, to } of edges) {
      const before = nextTask(loft, from.snapshot.context.state);
      const after = nextTask(loft, to.snapshot.context.state);
      if (before.kind !== 'hold' || taskKey(before) === taskKey(after)) continue;
      // What the kiosk checks behind an act leads nowhere by itself.
      const stored = to.facts.slice(from.facts.length).map(({ body }) => body.kind);
      const acts = stored.filter((kind) => kind !== 'recheckPassed');
      expect(acts.length).toBeGreaterThan(0);
      ways.add(acts.at(-1) ?? '');
    }
    expect([...ways].sort()).toEqual(
      // A hand-over at the final hold voids the signature that it looks at.
      ['corrected', 'handedOver', 'holdReleased', 'holdReturned', 'packClosed', 'reopened', 'stopped'],
    );
  });

  it('hands over only on the badges of two people, to one who may pack and gave no verdict, after a look back', () => {
    const handing = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'handedOver'));
    expect(handing.length).toBeGreaterThan(10);
    const leads = new Set<string | undefined>();
    for (const { from, event, drafts } of handing) {
      const { state } = from.snapshot.context;
      const body = drafts.find((draft) => draft.body.kind === 'handedOver')?.body;
      if (body?.kind !== 'handedOver') continue;
      leads.add(body.lead);
      expect([body.from, body.to === state.packer, state.verdictGivers.has(body.to)]).toEqual([
        ...[state.packer, false, false],
      ]);
      expect(['ada', 'ron']).toContain(body.to);
      expect(body.fromSighting).not.toBe(body.sighting);
      expect(from.facts.some(({ body: old }) => 'sighting' in old && old.sighting === body.sighting)).toBe(false);
      const open = openHolds(from);
      expect(body.lookedBack).toBe(open[0] ?? null);
      const { value } = from.snapshot;
      if (open.length > 0) expect([value, event]).toMatchObject(['handOverLook', {}]);
      else expect(event).toMatchObject({ type: 'SIGHTED', sighting: { id: body.fromSighting } });
    }
    expect(leads).toEqual(new Set([undefined, 'ines']));
  });

  it('goes on after a long break only by the badge of the packer', () => {
    const badges = new Set<boolean>();
    for (const { from, event, drafts } of edges) {
      const body = drafts.find((draft) => draft.body.kind === 'resumed')?.body;
      if (body?.kind !== 'resumed') continue;
      expect(body.packer).toBe(from.snapshot.context.state.packer);
      badges.add(body.sighting !== undefined);
      if (body.sighting !== undefined) expect(event).toMatchObject({ sighting: { id: body.sighting } });
      else expect(from.snapshot.context.badgeWanted).toBe(false);
    }
    expect(badges).toEqual(new Set([true, false]));
  });

  it('packs nothing before each part was looked over, and nothing with a finding', () => {
    const issuing = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'toolIssued'));
    expect(issuing.length).toBeGreaterThan(0);
    for (const { from } of issuing) {
      const results = [...from.snapshot.context.state.inspected.values()].map(({ result }) => result);
      expect(results).toEqual(['good', 'good', 'good']);
    }
    const found = nodes.filter(({ facts }) =>
      facts.some(({ body }) => body.kind === 'inspected' && body.result === 'finding'),
    );
    expect(found.length).toBeGreaterThan(0);
    for (const { snapshot } of found) {
      expect(['blocked', 'stopped']).toContain(nextTask(loft, snapshot.context.state).kind);
    }
  });

  it('ends only by the release of the final hold or a stop', () => {
    const ends = new Set<string>();
    for (const { from, event, to } of edges) {
      const { ended } = to.snapshot.context.state;
      if (ended === null || from.snapshot.context.state.ended !== null) continue;
      expect(event).toMatchObject({ type: 'STORED' });
      ends.add([ended, ...to.facts.slice(-2).map(({ body }) => body.kind)].join(' '));
    }
    expect(ends).toContain('recorded holdReleased packClosed');
    for (const end of ends) expect(end).toMatch(/^recorded holdReleased packClosed$|^stopped .*stopped$/);
  });

  it('stops the pack in the same write in which damage is found, and in no other write of an inspector', () => {
    const stopping = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'stopped'));
    const kinds = new Set(stopping.map(({ drafts }) => drafts.map(({ body }) => body.kind).join(' ')));
    expect([...kinds].some((kind) => kind.endsWith('holdReturned stopped'))).toBe(true);
    for (const { from, drafts } of edges) {
      const last = drafts.at(-1)?.body;
      const damaged = drafts.some(({ body }) => body.kind === 'holdReturned' && body.finding === 'damage');
      if (damaged) expect(last).toMatchObject({ kind: 'stopped', cause: 'damage' });
      if (last?.kind === 'stopped' && !damaged) expect(drafts.at(-1)?.by).toBe(from.snapshot.context.state.packer);
    }
  });

  it('lets an inspector be present only by a fresh badge', () => {
    for (const { from, event, to } of edges) {
      const before = from.snapshot.context.presence;
      const after = to.snapshot.context.presence;
      if (after === null || after.sighting === before?.sighting) continue;
      const pending = from.snapshot.context.pending;
      expect(event).toMatchObject({ type: 'STORED' });
      expect(pending?.drafts.at(-1)?.body).toMatchObject({ kind: 'inspectorPresent', sighting: after.sighting });
    }
    const present = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'inspectorPresent'));
    for (const { event } of present)
      expect(event).toMatchObject({ type: 'SIGHTED', sighting: { meaning: { kind: 'badge' } } });
  });

  it('comes out of a restart with nobody present and nothing read back', () => {
    for (const { event, to } of edges) {
      if (event !== 'restart') continue;
      expect(to.snapshot.context.presence).toBeNull();
      expect(to.snapshot.context.readBack).toBeNull();
    }
  });

  it('changes facts only when storage answers with what was sent', () => {
    for (const { from, event, to } of edges) {
      if (event === 'restart') continue;
      const before = from.snapshot.context;
      if (to.snapshot.context.facts === before.facts) continue;
      expect(event.type).toBe('STORED');
      const added = to.snapshot.context.facts.slice(before.facts.length);
      expect(added.map(({ pack, at, by, body }) => ({ pack, at, by, body }))).toEqual(before.pending?.drafts);
    }
  });

  it('signs only what is whole: the hold released by others than the packers, item out, tool back', () => {
    const signing = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'signed'));
    expect(signing.length).toBeGreaterThan(0);
    for (const { from } of signing) expectWhole(from, ['hold-tie']);
  });

  it('closes only with the release of the final hold, of a signed pack with its card', () => {
    const closing = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'packClosed'));
    expect(closing.length).toBeGreaterThan(0);
    for (const { from, drafts } of closing) {
      expectWhole(from, ['hold-tie']);
      const { signed, cardPlaced } = from.snapshot.context.state;
      expect(cardPlaced).toBe(true);
      expect(drafts.map(({ body }) => body.kind).slice(-2)).toEqual(['holdReleased', 'packClosed']);
      expect(drafts.at(-1)?.body).toMatchObject({ signed: signed?.seq, hold: 'hold-last' });
    }
    const ended = nodes.filter(({ snapshot }) => snapshot.value === 'recorded');
    expect(ended.length).toBeGreaterThan(0);
    for (const node of ended) {
      expectWhole(node, ['hold-tie', 'hold-last']);
      expect(node.facts.at(-1)?.body.kind).toBe('packClosed');
    }
  });

  it('closes the container only over a tool and an item that were counted', () => {
    const closing = edges.filter(({ drafts }) =>
      drafts.some(({ body }) => body.kind === 'stageConfirmed' && body.stage === 'close'),
    );
    expect(closing.length).toBeGreaterThan(0);
    for (const { from } of closing) {
      const { state } = from.snapshot.context;
      expect(state.toolsAccounted.get('cord')).toBe(1);
      expect(state.itemsAccounted.has('closing')).toBe(true);
      expect(state.itemsIn.size).toBe(0);
    }
  });

  it('opens no hold by reopening a stage, and takes none after the signature', () => {
    const reopening = edges.filter(({ drafts }) => drafts.some(({ body }) => body.kind === 'reopened'));
    expect(reopening.length).toBeGreaterThan(10);
    for (const { from, drafts } of reopening) {
      expect(from.snapshot.value).toBe('readingBack');
      expect(from.snapshot.context.state.signed).toBeNull();
      expect(drafts.at(-1)?.by).toBe(from.snapshot.context.state.packer);
    }
    for (const { facts, snapshot } of nodes) {
      const last = facts.findLast(({ body }) => body.kind === 'reopened');
      if (last?.body.kind !== 'reopened' || last.body.backTo !== 'tie') continue;
      const since = facts.filter(({ seq }) => seq > last.seq);
      for (const hold of snapshot.context.state.releases.keys()) {
        expect(since.some(({ body }) => body.kind === 'holdReleased' && body.hold === hold)).toBe(true);
      }
    }
  });
});
