/** What the screen of the present step draws. */
import { COMPONENT_KINDS } from '../../domain/component';
import { inspectionFindings, inspectionPoints } from '../../domain/inspection';
import { holdsOf } from '../../domain/procedure';
import { personById } from '../../domain/loft';
import { countGiven, isCountTold, isLengthTold, isToldBefore } from '../words/blind';
import { assemblyById } from '../steps/identify/check-in';
import { closeUpChecks } from '../steps/close-up/close-up';
import type { Here, Phase } from './context';
import { findingsOf } from '../steps/hold/findings';
import { bandOf } from '../steps/stage/measure-work';
import type { Task } from '../state/next-task';
import { procedureOf } from '../state/pack-state';
import { itemName, personName, placeWords } from '../state/place';
import { CAUSE_WORDS, taggedWords } from '../steps/stop/stop-work';
import { stowLedger } from '../steps/stage/stow-work';
import type { Detail, FinalInspection, MeasureView, StowLedgerView } from './view';

type Of<K extends Task['kind']> = Extract<Task, { kind: K }>;

/** Standing by, or handing over meanwhile. */
function restsAside(phase: Phase): boolean {
  return phase === 'standingBy' || phase.startsWith('handOver');
}

/** The detail of where we are. */
export function detailOf(here: Here): Detail {
  const { context, task, phase } = here;
  const since = context.state.standingBySince;
  const { handOver } = context;
  if (since !== null && restsAside(phase)) {
    const to = handOver === null ? {} : { handingTo: personName(context, handOver.to) };
    return { screen: 'standingBy', since, at: placeWords(task).show, ...to };
  }
  const stops = stopping(here);
  if (stops !== null) return stops;
  switch (task.kind) {
    case 'identify':
      return identify(here);
    case 'blocked':
      return { screen: 'blocked', checks: task.checks };
    case 'inspect':
      return inspection(task);
    case 'toolOut':
      return toolsOut(here, task);
    case 'stage':
      return stage(here, task);
    case 'restore':
      return restore(here, task);
    case 'hold':
      return hold(here, task);
    case 'toolCheck':
    case 'toolBack':
      return toolsBack(here, task);
    case 'items':
      return items(task);
    case 'sign':
      return { screen: 'sign', checks: task.checks };
    case 'card':
      return { screen: 'card', record: task.record };
    case 'recorded':
      return { screen: 'record', record: task.record, final: finalInspection(here) };
    case 'stopped':
      return stopped(task);
  }
}

/** A stop that is being put together, or read back. */
function stopping({ phase, context }: Here): Detail | null {
  const shown = phase === 'readingBack' ? context.readBack?.from : phase;
  if (shown !== 'choosingCause' && shown !== 'choosingComponent') return null;
  return {
    screen: 'stopping',
    step: shown === 'choosingCause' ? 'cause' : 'component',
    cause: context.stopping === null ? null : CAUSE_WORDS[context.stopping.cause],
    deadline: context.presence?.deadline ?? null,
  };
}

function stopped({ stopped: { reason, cause, component } }: Of<'stopped'>): Detail {
  const why = cause === undefined ? null : CAUSE_WORDS[cause];
  return { screen: 'stopped', reason, cause: why, tagged: taggedWords(component) };
}

/** The serial that is being read back in the identify step, by kind. */
function serialReadBack({ context }: Here): { readonly component: string; readonly serial: string } | null {
  const onAffirm = context.readBack?.onAffirm;
  const asked = onAffirm?.kind === 'store' ? onAffirm.bodies[0] : undefined;
  return asked?.kind === 'componentIdentified' ? asked : null;
}

function identify(here: Here): Detail {
  const asked = serialReadBack(here);
  const slots = COMPONENT_KINDS.map((component) => {
    const serial = here.context.state.identified.get(component) ?? null;
    if (serial !== null) return { component, serial, state: 'affirmed' as const };
    if (asked?.component === component) return { component, serial: asked.serial, state: 'readBack' as const };
    return { component, serial: null, state: 'missing' as const };
  });
  return { screen: 'identify', slots };
}

function inspection({ procedure, component, serial, number, of }: Of<'inspect'>): Detail {
  const findings = inspectionFindings(procedure, component);
  const points = inspectionPoints(procedure, component);
  const line = (label: string, index: number) => ({ number: index + 1, label });
  return {
    screen: 'inspection',
    component,
    serial,
    number,
    of,
    points: points.map(line),
    further: findings.map(line).slice(points.length),
  };
}

function toolsOut(here: Here, { procedure, index }: Of<'toolOut'>): Detail {
  const { context } = here;
  const { agreed, checkIn, toolsOut: out } = context.state;
  return {
    screen: 'checkIn',
    assembly: assemblyById(context.loft, agreed?.assembly ?? '')?.name ?? '',
    procedure: `${procedure.title}, revision ${procedure.revision}`,
    checks: checkIn?.checks ?? [],
    tools: procedure.tools.map(({ id, name, count }, at) => {
      const counted = out.get(id) ?? (at === index ? countGiven(here) : null);
      return { name, planned: counted !== null || isToldBefore(here) ? count : null, counted };
    }),
    current: index,
  };
}

function measureView(here: Here, { procedure, stage: of }: Of<'stage'>): MeasureView | null {
  if (of.kind !== 'measure') return null;
  const { context } = here;
  const { outside } = context.state;
  return {
    what: of.what,
    band: isLengthTold(here, of) ? bandOf(procedure, context.state, of) : null,
    outside:
      outside?.stage === of.id
        ? { value: outside.value, deviation: outside.deviation, unit: outside.expected.unit }
        : null,
  };
}

/** The line that should remain is hidden: it is measured afterwards. */
function ledgerView(here: Here, of: Parameters<typeof stowLedger>[1]): StowLedgerView {
  const ledger = stowLedger(here.context.state, of);
  return isToldBefore(here) ? ledger : { ...ledger, lineAtStart: null, lineLeft: null, remainder: null };
}

function itemsIn({ context }: Here, task: Of<'stage'> | Of<'restore'>): readonly string[] {
  return [...context.state.itemsIn].map((id) => itemName(task.procedure, id));
}

function stage(here: Here, task: Of<'stage'>): Detail {
  const { stage: of, procedure } = task;
  const item =
    of.kind === 'place' || of.kind === 'remove'
      ? { name: itemName(procedure, of.item), direction: of.kind === 'place' ? ('in' as const) : ('out' as const) }
      : null;
  return {
    screen: 'stage',
    number: of.number,
    of: procedure.stages.length,
    kind: of.kind,
    title: of.title,
    steps: of.steps,
    caution: of.caution,
    stow: of.kind === 'stow' ? ledgerView(here, of) : null,
    measure: measureView(here, task),
    count:
      of.kind === 'count'
        ? { noun: of.noun, expected: isCountTold(here) ? of.expected : null, counted: countGiven(here) }
        : null,
    item,
    itemsIn: itemsIn(here, task),
  };
}

function restore(here: Here, task: Of<'restore'>): Detail {
  const { procedure, before, item, direction } = task;
  const total = procedure.stages.length;
  return {
    screen: 'stage',
    number: before?.number ?? total,
    of: total,
    kind: 'restore',
    title: direction === 'out' ? 'Take a temporary item out' : 'Put a temporary item back',
    steps: [],
    caution: null,
    stow: null,
    measure: null,
    count: null,
    item: { name: item.name, direction },
    itemsIn: itemsIn(here, task),
  };
}

type HoldPhase = Extract<Detail, { screen: 'hold' }>['phase'];
const HOLD_PHASES: Partial<Record<Phase, HoldPhase>> = {
  inspecting: 'inspecting',
  choosingFinding: 'choosingFinding',
  choosingPoint: 'choosingPoint',
  choosingStage: 'choosingStage',
};

function hold({ context, phase }: Here, task: Of<'hold'>): Detail {
  const holds = holdsOf(task.procedure);
  const shown = phase === 'readingBack' ? context.readBack?.from : phase;
  const { presence } = context;
  return {
    screen: 'hold',
    final: task.final,
    number: task.final ? holds.length + 1 : holds.findIndex((one) => one.hold.id === task.hold.id) + 1,
    of: task.final ? holds.length + 1 : holds.length,
    title: task.hold.title,
    inspect: task.hold.inspect,
    phase: (shown === undefined ? undefined : HOLD_PHASES[shown]) ?? 'waiting',
    inspectorClass: task.hold.inspectorClass,
    inspector: presence === null ? null : personName(context, presence.inspector),
    deadline: presence?.deadline ?? null,
    findings: findingsOf(task.hold, task.stage).map(({ text }, index) => ({ number: index + 1, text })),
    called: context.state.called.has(task.stage.id),
  };
}

function items({ before, out, inside }: Of<'items'>): Detail {
  const names = (all: typeof out): readonly string[] => all.map(({ name }) => name);
  return { screen: 'items', beforeClosing: before === 'closing', out: names(out), inside: names(inside) };
}

function finalInspection({ context }: Here): FinalInspection | null {
  const { loft, state } = context;
  const hold = procedureOf(loft, state)?.finalHold;
  const release = hold === undefined ? undefined : state.releases.get(hold.id);
  if (hold === undefined || release === undefined) return null;
  const { inspector, at } = release;
  const certificate = personById(loft, inspector)?.certificate ?? 'not on record';
  return { title: hold.title, inspector: personName(context, inspector), certificate, at };
}

function toolsBack(here: Here, { kind, procedure, index }: Of<'toolBack' | 'toolCheck'>): Detail {
  const { context } = here;
  const beforeClosing = kind === 'toolCheck';
  const { toolsOut: out, toolsAccounted, toolsBack: later } = context.state;
  const back = beforeClosing ? toolsAccounted : later;
  return {
    screen: 'closeUp',
    tools: procedure.tools.map(({ id, name, count }, at) => {
      const returned = back.get(id) ?? (at === index ? countGiven(here) : null);
      const issued = returned !== null || isToldBefore(here) ? (out.get(id) ?? count) : null;
      return { name, issued, returned };
    }),
    current: index,
    checks: beforeClosing ? [] : closeUpChecks(procedure, context.state).filter((line) => line.label !== 'Tools back'),
    beforeClosing,
  };
}

/** The name of the assembly once agreed; null before. */
export function assemblyName({ context }: Here): string | null {
  const id = context.state.agreed?.assembly;
  return id === undefined ? null : (assemblyById(context.loft, id)?.name ?? id);
}
