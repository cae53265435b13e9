/** Rules that hold between the parts of a procedure: unique names, complete kinds, findings that lead back. */
import { COMPONENT_KINDS } from '../domain/component/component';
import type { Hold, Procedure, Stage } from '../domain/procedure';
import { holdsOf, stageOf } from '../domain/procedure';
import { checkBlind } from './blind-rules';
import { checkClosing } from './closing-rules';
import type { Named } from './duplicates';
import { findDuplicates } from './duplicates';
import { checkItems } from './item-rules';
import type { Problem } from './refusal';
import { checkStowing } from './stow-rules';

function ids(list: string, entries: readonly { readonly id: string }[]): readonly Named[] {
  return entries.map((entry, index) => ({ name: entry.id, path: [list, index, 'id'] }));
}

function inspected({ inspection = [] }: Procedure): readonly Named[] {
  return inspection.map(({ component }, index) => ({ name: component, path: ['inspection', index, 'component'] }));
}

function checkNames(procedure: Procedure): readonly Problem[] {
  const holds = holdsOf(procedure).map(({ hold, stage }) => ({
    name: hold.id,
    path: ['stages', stage.number - 1, 'hold', 'id'],
  }));
  const last = procedure.finalHold === undefined ? [] : [{ name: procedure.finalHold.id, path: ['finalHold', 'id'] }];
  return [
    ...findDuplicates(ids('stages', procedure.stages), 'The stage'),
    ...findDuplicates([...holds, ...last], 'The hold'),
    ...findDuplicates(ids('tools', procedure.tools), 'The tool'),
    ...findDuplicates(ids('temporaryItems', procedure.temporaryItems), 'The temporary item'),
    ...findDuplicates(inspected(procedure), 'The inspection of the'),
  ];
}

/** Every hold offers these beside its own list. */
const ALWAYS_OFFERED: readonly string[] = ['other', 'damage'];

/** A return goes back over ground already covered, never forward past work that nobody has seen. */
function checkHold(procedure: Procedure, hold: Hold, stage: Stage): readonly Problem[] {
  const place = ['stages', stage.number - 1, 'hold', 'findings'];
  const names = hold.findings.map((finding, index) => ({ name: finding.id, path: [...place, index, 'id'] }));
  const reserved = hold.findings.flatMap(({ id }, index): readonly Problem[] => {
    if (!ALWAYS_OFFERED.includes(id)) return [];
    const reason = `"${id}" is a finding that every hold has of itself. Give this one another name.`;
    return [{ path: [...place, index, 'id'], fault: 'duplicate-id', reason }];
  });
  const back = hold.findings.flatMap((finding, index): readonly Problem[] => {
    const path = [...place, index, 'backTo'];
    const target = stageOf(procedure, finding.backTo);
    if (target === null) {
      return [
        { path, fault: 'unknown-reference', reason: `"${finding.backTo}" is no stage. Name the stage to go back to.` },
      ];
    }
    if (target.number <= stage.number) return [];
    return [
      { path, fault: 'later-stage', reason: `"${finding.backTo}" comes after this hold. A finding must go back.` },
    ];
  });
  return [...findDuplicates(names, 'The finding'), ...reserved, ...back];
}

/** An assembly is one of each kind, and all are scanned, so a procedure says which models of each it is for. */
function checkKinds(procedure: Procedure): readonly Problem[] {
  const missing = COMPONENT_KINDS.filter((kind) => !procedure.components.some((one) => one.kind === kind));
  const twice = findDuplicates(
    procedure.components.map((one, index) => ({ name: one.kind, path: ['components', index, 'kind'] })),
    'The component kind',
    'wrong-kinds',
  );
  if (missing.length === 0) return twice;
  const reason = `The component kinds ${missing.join(', ')} are missing. Name the models for each kind.`;
  return [...twice, { path: ['components'], fault: 'wrong-kinds', reason }];
}

/** What cuts, as a step names it: "ready cut ties" are cut already. */
const CUTS = /\b(scissors|shears|knife|knives|blades?|cutting)\b|^cut\b|\band cut\b/i;

/** Nothing that cuts comes near lines and fabric without a word of caution. */
function checkCutting({ steps, caution, number }: Stage): readonly Problem[] {
  const at = steps.findIndex((step) => CUTS.test(step));
  if (at < 0 || caution !== null) return [];
  const reason = 'This step cuts, and the stage has no caution. Say what must not be cut.';
  return [{ path: ['stages', number - 1, 'steps', at], fault: 'caution-missing', reason }];
}

/**
 * Everything that is wrong between the parts of a procedure whose shape is right. Names come first and alone: as long
 * as one is used twice, whatever refers to it would only be blamed for that.
 */
export function checkProcedure(procedure: Procedure): readonly Problem[] {
  const names = checkNames(procedure);
  if (names.length > 0) return names;
  return [
    ...checkKinds(procedure),
    ...holdsOf(procedure).flatMap(({ hold, stage }) => checkHold(procedure, hold, stage)),
    ...procedure.stages.flatMap(checkCutting),
    ...checkBlind(procedure),
    ...checkItems(procedure),
    ...checkClosing(procedure),
    ...checkStowing(procedure),
  ];
}
