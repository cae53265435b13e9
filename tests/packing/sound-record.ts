/**
 * A second opinion on a signed pack, written without the code under test: it walks the facts in order and says what is
 * wrong with the signature, or nothing.
 */
import type { Fact } from '../../src/domain/fact';
import type { Person } from '../../src/domain/person';
import type { Procedure } from '../../src/domain/procedure';

interface Account {
  readonly packers: Set<string>;
  readonly done: Map<string, Fact[]>;
  readonly released: Map<string, string>;
  readonly inside: Set<string>;
  readonly out: Map<string, number>;
  readonly back: Map<string, number>;
}

/** What is wrong with the `signed` fact in these facts; empty when nothing is, or when nothing is signed. */
export function faultsOf(facts: readonly Fact[], procedure: Procedure, people: readonly Person[]): readonly string[] {
  const signedAt = facts.findIndex(({ body }) => body.kind === 'signed');
  if (signedAt === -1) return [];
  const account = accountFor(facts.slice(0, signedAt), procedure);
  return [
    ...stageFaults(account, procedure),
    ...holdFaults(account, procedure, people),
    ...countFaults(account, procedure),
  ];
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
  if (body.kind === 'itemPlaced') account.inside.add(body.item);
  if (body.kind === 'itemRemoved') account.inside.delete(body.item);
  if (body.kind === 'holdReleased') account.released.set(body.hold, body.inspector);
  if ('stage' in body && body.stage !== null) {
    account.done.set(body.stage, [...(account.done.get(body.stage) ?? []), fact]);
  }
  if (body.kind === 'holdReturned') {
    const from = procedure.stages.findIndex((stage) => stage.id === body.backTo);
    for (const stage of procedure.stages.slice(from)) {
      account.done.delete(stage.id);
      if (stage.hold !== null) account.released.delete(stage.hold.id);
    }
  }
}

function stageFaults({ done }: Account, procedure: Procedure): readonly string[] {
  return procedure.stages.flatMap((stage) => {
    const bodies = (done.get(stage.id) ?? []).map(({ body }) => body);
    const has = (kind: string): boolean => bodies.some((body) => body.kind === kind);
    const stows = bodies.reduce((sum, body) => (body.kind === 'stowed' ? sum + body.count : sum), 0);
    const sound = {
      confirm: has('stageConfirmed'),
      count: bodies.some((body) => body.kind === 'counted' && stage.kind === 'count' && body.count === stage.expected),
      stow: has('stageConfirmed') && stage.kind === 'stow' && stows === stage.plan.stows,
      measure: bodies.some((body) => body.kind === 'measured' && body.within),
      place: has('itemPlaced'),
      remove: has('itemRemoved'),
    };
    return sound[stage.kind] ? [] : [`stage ${stage.id} is not done`];
  });
}

function holdFaults(
  { released, packers }: Account,
  procedure: Procedure,
  people: readonly Person[],
): readonly string[] {
  return procedure.stages.flatMap(({ hold }) => {
    if (hold === null) return [];
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

function countFaults({ inside, out, back }: Account, procedure: Procedure): readonly string[] {
  const tools = procedure.tools.filter((tool) => out.get(tool.id) !== tool.count || back.get(tool.id) !== tool.count);
  return [...[...inside].map((item) => `item ${item} is in`), ...tools.map((tool) => `tool ${tool.id} is out`)];
}
