/**
 * A second opinion on a signed pack, written without the code under test: it walks the facts in order and says what is
 * wrong with the signature, or with the end of the pack, or nothing.
 */
import type { Fact } from '../../../src/domain/fact';
import type { Person } from '../../../src/domain/person';
import type { Hold, Procedure } from '../../../src/domain/procedure';

interface Account {
  readonly packers: Set<string>;
  readonly done: Map<string, Fact[]>;
  readonly released: Map<string, string>;
  readonly inside: Set<string>;
  readonly out: Map<string, number>;
  readonly back: Map<string, number>;
  /** Counted before the container was closed. */
  readonly counted: Map<string, number>;
  readonly tray: Set<string>;
  card: boolean;
}

/** What is wrong with the `signed` fact in these facts; empty when nothing is, or when nothing is signed. */
export function faultsOf(facts: readonly Fact[], procedure: Procedure, people: readonly Person[]): readonly string[] {
  return facts.flatMap(({ body }, index) => {
    if (body.kind !== 'signed' && body.kind !== 'packClosed') return [];
    const account = accountFor(facts.slice(0, index), procedure);
    const holds = procedure.stages.flatMap(({ hold }) => (hold === null ? [] : [hold]));
    const last = procedure.finalHold === undefined ? [] : [procedure.finalHold];
    const isEnd = body.kind === 'packClosed';
    return [
      ...stageFaults(account, procedure),
      ...holdFaults(account, isEnd ? [...holds, ...last] : holds, people),
      ...countFaults(account, procedure),
      ...(isEnd && !account.card ? ['the card is not in its pocket'] : []),
      ...(isEnd && facts[body.signed]?.body.kind !== 'signed' ? ['what was closed is not signed'] : []),
    ];
  });
}

function accountFor(facts: readonly Fact[], procedure: Procedure): Account {
  const voided = new Set(facts.flatMap(({ body }) => (body.kind === 'corrected' ? [body.fact] : [])));
  const account: Account = {
    packers: new Set(),
    done: new Map(),
    released: new Map(),
    inside: new Set(),
    out: new Map(),
    back: new Map(),
    counted: new Map(),
    tray: new Set(),
    card: false,
  };
  for (const fact of facts) if (!voided.has(fact.seq)) enter(account, fact, procedure);
  return account;
}

function enter(account: Account, fact: Fact, procedure: Procedure): void {
  const { body } = fact;
  if (body.kind === 'packOpened') account.packers.add(body.packer);
  if (body.kind === 'handedOver') account.packers.add(body.to);
  if (body.kind === 'toolIssued') account.out.set(body.tool, body.count);
  if (body.kind === 'toolReturned') account.back.set(body.tool, body.count);
  if (body.kind === 'toolAccounted') account.counted.set(body.tool, body.count);
  if (body.kind === 'itemsAccounted') account.tray.add(body.before);
  if (body.kind === 'cardPlaced') account.card = true;
  if (body.kind === 'signed' || body.kind === 'handedOver') account.card = false;
  if (body.kind === 'itemPlaced') account.inside.add(body.item);
  if (body.kind === 'itemRemoved') account.inside.delete(body.item);
  if (body.kind === 'holdReleased') account.released.set(body.hold, body.inspector);
  if ('stage' in body && body.stage !== null) {
    account.done.set(body.stage, [...(account.done.get(body.stage) ?? []), fact]);
  }
  if (body.kind === 'holdReturned' || body.kind === 'reopened') undo(account, body.backTo, procedure);
}

/** From that stage on nothing counts; back to the signature alone, only what came after it. */
function undo(account: Account, backTo: string, { stages, finalHold }: Procedure): void {
  account.card = false;
  account.released.delete(finalHold?.id ?? '');
  const from = stages.findIndex((stage) => stage.id === backTo);
  if (from < 0) return;
  for (const stage of stages.slice(from)) {
    account.done.delete(stage.id);
    if (stage.hold !== null) account.released.delete(stage.hold.id);
  }
  account.back.clear();
  account.tray.delete('signature');
  if (from > stages.findIndex(({ closes }) => closes === true)) return;
  account.counted.clear();
  account.tray.delete('closing');
}

function stageFaults({ done }: Account, procedure: Procedure): readonly string[] {
  return procedure.stages.flatMap((stage) => {
    const bodies = (done.get(stage.id) ?? []).map(({ body }) => body);
    const has = (kind: string): boolean => bodies.some((body) => body.kind === kind);
    const stows = bodies.reduce((sum, body) => (body.kind === 'stowed' ? sum + body.count : sum), 0);
    const sound = {
      confirm: has('stageConfirmed'),
      count: bodies.some((body) => body.kind === 'counted' && stage.kind === 'count' && body.count === stage.expected),
      stow:
        has('stageConfirmed') &&
        stage.kind === 'stow' &&
        stows <= stage.plan.stows &&
        stows >= (stage.plan.least ?? stage.plan.stows),
      measure: bodies.some((body) => body.kind === 'measured' && body.within),
      place: has('itemPlaced'),
      remove: has('itemRemoved'),
    };
    return sound[stage.kind] ? [] : [`stage ${stage.id} is not done`];
  });
}

function holdFaults(
  { released, packers }: Account,
  holds: readonly Hold[],
  people: readonly Person[],
): readonly string[] {
  return holds.flatMap((hold) => {
    const by = released.get(hold.id);
    if (by === undefined) return [`hold ${hold.id} is not released`];
    const inspector = people.find((person) => person.id === by);
    const may = inspector?.roles.includes('inspector') === true && inspector.holdClasses.includes(hold.inspectorClass);
    return [
      ...(packers.has(by) ? [`hold ${hold.id} is released by packer ${by}`] : []),
      ...(may && !inspector.revoked ? [] : [`hold ${hold.id} is released by ${by}, who may not`]),
    ];
  });
}

function countFaults(account: Account, procedure: Procedure): readonly string[] {
  const { inside, out, back, counted, tray } = account;
  const counts = [out, counted, back];
  const tools = procedure.tools.filter((tool) => counts.some((count) => count.get(tool.id) !== tool.count));
  const places = procedure.temporaryItems.length === 0 ? [] : ['closing', 'signature'];
  return [
    ...[...inside].map((item) => `item ${item} is in`),
    ...tools.map((tool) => `tool ${tool.id} is not accounted for`),
    ...places.filter((place) => !tray.has(place)).map((place) => `the tray was not looked at before ${place}`),
  ];
}
