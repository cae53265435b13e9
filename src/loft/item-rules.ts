/** Temporary items: each goes in once, comes out once, in that order, and none is left in. */
import type { Procedure, Stage } from '../domain/procedure';
import type { Fault, Problem } from './refusal';

function at(stage: Stage, fault: Fault, reason: string): Problem {
  return { path: ['stages', stage.number - 1, 'item'], fault, reason };
}

interface ItemLife {
  readonly placed: readonly Stage[];
  readonly removed: readonly Stage[];
}

function lifeOf(procedure: Procedure, item: string): ItemLife {
  const touching = procedure.stages.filter((stage) => 'item' in stage && stage.item === item);
  return {
    placed: touching.filter((stage) => stage.kind === 'place'),
    removed: touching.filter((stage) => stage.kind === 'remove'),
  };
}

function itemProblems(
  item: { readonly id: string; readonly name: string },
  index: number,
  life: ItemLife,
): readonly Problem[] {
  const { placed, removed } = life;
  const [firstPlaced, ...placedAgain] = placed;
  const problems = placedAgain.map((stage) =>
    at(stage, 'placed-twice', `"${item.name}" is placed twice. Give each item its own entry.`),
  );
  if (firstPlaced === undefined) {
    problems.push({
      path: ['temporaryItems', index],
      fault: 'never-placed',
      reason: `"${item.name}" is never placed. Add a place stage or take the item out of the list.`,
    });
    return problems;
  }
  const afterwards = removed.filter((stage) => stage.number > firstPlaced.number);
  for (const stage of removed.filter((one) => !afterwards.includes(one)).concat(afterwards.slice(1))) {
    const reason = `"${item.name}" is removed while it is not in. Put the stages in order.`;
    problems.push(at(stage, 'removed-before-placed', reason));
  }
  if (afterwards.length === 0) {
    const reason = `"${item.name}" is placed and never removed, so it would stay in the pack. Add a remove stage.`;
    problems.push(at(firstPlaced, 'never-removed', reason));
  }
  return problems;
}

/** Everything that is wrong with the temporary items of a procedure. */
export function checkItems(procedure: Procedure): readonly Problem[] {
  const known = new Set(procedure.temporaryItems.map((item) => item.id));
  const unknown = procedure.stages.flatMap((stage) =>
    'item' in stage && !known.has(stage.item)
      ? [at(stage, 'unknown-reference', `"${stage.item}" is not in the list of temporary items. Add it there.`)]
      : [],
  );
  const perItem = procedure.temporaryItems.flatMap((item, index) =>
    itemProblems(item, index, lifeOf(procedure, item.id)),
  );
  return [...unknown, ...perItem];
}
