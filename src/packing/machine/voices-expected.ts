/** Whose voices are expected at this pack now: the packer's, and an inspector's while a verdict is theirs to give. */
import type { PersonId } from '../../domain/ids';
import { restingPhase } from './here';
import type { PackSnapshot } from './machine';

export interface VoiceExpected {
  /** Id of the person. */
  readonly person: PersonId;
  readonly as: 'packer' | 'inspector';
}

/** Nobody's once the pack has ended. What is legal does not depend on it. */
export function voicesExpected({ context }: PackSnapshot): readonly VoiceExpected[] {
  const phase = restingPhase(context);
  if (phase === 'recorded' || phase === 'stopped') return [];
  const { packer } = context.state;
  const inspector = phase === 'inspecting' ? (context.presence?.inspector ?? null) : null;
  return [
    ...(packer === null ? [] : [{ person: packer, as: 'packer' as const }]),
    ...(inspector === null ? [] : [{ person: inspector, as: 'inspector' as const }]),
  ];
}
