/** Which item a scanned mark names, when an item may carry several marks and they may contradict one another. */
import type { Assembly, Component } from './component';
import { componentOfSerial } from './component';

/** What a mark says: a serial, and a unique item identifier where it carries one. */
export interface Mark {
  readonly serial: string;
  readonly uii?: string;
}

export interface FoundItem {
  readonly assembly: Assembly;
  readonly component: Component;
}

export type MarkedItem =
  | ({ readonly kind: 'found' } & FoundItem)
  | { readonly kind: 'unknown' }
  /** The mark, or the mark and the books, name two items: which one this is nobody can say. */
  | { readonly kind: 'conflict'; readonly detail: string };

const PUT_ASIDE = 'Set it aside, and have marks and books put right.';

const named = ({ component }: FoundItem): string => `${component.kind} ${component.serial}`;

function itemOfUii(assemblies: readonly Assembly[], uii: string): FoundItem | null {
  for (const assembly of assemblies) {
    const component = assembly.components.find((one) => one.uii === uii || one.otherMarks.includes(uii));
    if (component !== undefined) return { assembly, component };
  }
  return null;
}

/**
 * The item of a mark. Serial and identifier must lead to the same component; a serial that is known does not count
 * where the books give that component another identifier, since serials repeat from maker to maker.
 */
export function itemOfMark(assemblies: readonly Assembly[], mark: Mark): MarkedItem {
  const bySerial = componentOfSerial(assemblies, mark.serial);
  if (mark.uii === undefined) return bySerial === null ? { kind: 'unknown' } : { kind: 'found', ...bySerial };
  const byUii = itemOfUii(assemblies, mark.uii);
  if (byUii !== null && bySerial !== null && byUii.component.serial !== bySerial.component.serial) {
    const detail = `This mark names two items: by its identifier ${named(byUii)}, by its serial ${named(bySerial)}.`;
    return { kind: 'conflict', detail: `${detail} ${PUT_ASIDE}` };
  }
  if (byUii !== null) return { kind: 'found', ...byUii };
  if (bySerial === null) return { kind: 'unknown' };
  const { uii } = bySerial.component;
  if (typeof uii !== 'string') return { kind: 'found', ...bySerial };
  const detail = `This mark names ${named(bySerial)}, but carries another item identifier than the books have for it.`;
  return { kind: 'conflict', detail: `${detail} ${PUT_ASIDE}` };
}
