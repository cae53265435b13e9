/** The inspection that the packer makes before each packing: dry and aired, clean, component by component. */
import type { ComponentKind } from './component';
import type { Procedure } from '../procedure';

/** Where a procedure says nothing of a component: what 14 CFR 65.129(b) and (c) ask of any, in words of ours. */
const USUAL_POINTS: Readonly<Record<ComponentKind, readonly string[]>> = {
  canopy: [
    'Dry and aired through',
    'Clean: no dirt, oil, salt or sand',
    'Fabric and seams whole: no hole, burn or pulled stitch',
    'Lines and their attachments whole, none cut, frayed or knotted',
    'Label there and readable',
  ],
  container: [
    'Dry and clean, pockets empty',
    'Fabric, webbing and stitching whole',
    'Grommets, loops, pins and cables smooth and straight',
    'Label there and readable',
  ],
  bag: [
    'Dry and clean, nothing left inside',
    'Fabric, stitching and grommets whole',
    'Bands and loops whole and in place',
    'Label there and readable',
  ],
};

/** Found beside the points of any list; what `damage` and `damp` mean for the tag follows from their names. */
const FURTHER_FINDINGS = ['Damage', 'Damp or not aired', 'Something else is wrong'] as const;

/** What is looked at on a component of this kind, by the procedure or, where it has no list, by ours. */
export function inspectionPoints(procedure: Procedure, kind: ComponentKind): readonly string[] {
  return procedure.inspection?.find(({ component }) => component === kind)?.points ?? USUAL_POINTS[kind];
}

/** Everything that can be found on a component of this kind, in the order of its numbers. */
export function inspectionFindings(procedure: Procedure, kind: ComponentKind): readonly string[] {
  return [...inspectionPoints(procedure, kind).map((point) => `Not so: ${point}`), ...FURTHER_FINDINGS];
}
