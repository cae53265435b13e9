/** The short pack of the demo loft: who packs what, and who looks at it. */
import type { Loft } from '../../../src/domain/loft';
import type { PackPlan } from './by-card';

export function demoPlan(loft: Loft): PackPlan {
  const assembly = loft.assemblies.find(({ id }) => id === 'corrow-cargo-9');
  const procedure = loft.procedures.find(({ id }) => id === 'corrow-c3-cargo');
  const packer = loft.people.find(({ id }) => id === 'hazel-orrin');
  const inspector = loft.people.find(({ id }) => id === 'tomas-veller');
  if (!assembly || !procedure || !packer || !inspector) throw new Error('the demo loft is not complete');
  return { assembly, procedure, packer, inspector };
}
