/** What an inspector can say is wrong at a hold: the procedure's own findings, and two that every hold has. */
import type { Finding, Hold, Stage } from '../../../domain/procedure';

/** The inspector says which inspection point is not met, or that it is something else. */
export const OTHER = 'other';
/** Something is damaged: the inspection and the pack end. */
export const DAMAGE = 'damage';

const isOwn = (hold: Hold, id: string): boolean => hold.findings.some((finding) => finding.id === id);

/** Whether the finding is one of the procedure's own; those that every hold has are none. */
export function isOwnFinding(hold: Hold, { id }: Finding): boolean {
  return isOwn(hold, id);
}

/** The findings of a hold, "other" and "damage" always last. */
export function findingsOf(hold: Hold, stage: Stage): readonly Finding[] {
  const always = [
    { id: OTHER, text: 'Other', backTo: stage.id },
    { id: DAMAGE, text: 'Damage', backTo: stage.id },
  ];
  return [...hold.findings, ...always.filter(({ id }) => !isOwn(hold, id))];
}

/** One finding for each inspection point of the hold that may not be met. */
export function pointsOf(hold: Hold, stage: Stage): readonly Finding[] {
  return hold.inspect.map((line, index) => ({
    id: `point:${String(index + 1)}`,
    text: `Not so: ${line.replace(/\.$/, '')}`,
    backTo: stage.id,
  }));
}

/** The finding with this id; null where the hold has none such. */
export function findingById(hold: Hold, stage: Stage, id: string): Finding | null {
  return [...findingsOf(hold, stage), ...pointsOf(hold, stage)].find((finding) => finding.id === id) ?? null;
}

/** What is wrong, with what was written beside it. */
export function findingText(text: string, note: string | null): string {
  return note === null ? text : `${text}: ${note}`;
}
