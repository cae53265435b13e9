/** Whether one export of a journal goes on from an earlier one, recomputed from the bytes of both. */
import { rootAt, type Levels } from './bytes/merkle-root';
import { hexAt } from './bytes/sha256';
import { readExport } from './verify-export';

export interface Comparison {
  /** Every fact of the earlier file stands in the later one, in the same place, and its head leads to the same root. */
  readonly extends: boolean;
  /** The first fact in which the two differ; null where they do not. */
  readonly fork: number | null;
  /** What it means, in one sentence. */
  readonly detail: string;
}

const no = (detail: string, fork: number | null = null): Comparison => ({ extends: false, fork, detail });

/** Never throws, whatever the bytes are. Whether each file is sound by itself is another question. */
export function compareExports(earlier: Uint8Array, later: Uint8Array): Comparison {
  const [old, now] = [readExport(earlier, () => undefined), readExport(later, () => undefined)];
  if (old.header === null || now.header === null) return no('One of the files is no export.');
  if (old.header.pack !== null || now.header.pack !== null) {
    return no('One of the files holds one pack. Compare two exports of the whole journal.');
  }
  const fork = firstOther(old.levels, now.levels);
  if (fork !== null) return no(`The two files fork at fact ${fork}: from there on they are two histories.`, fork);
  const [was, is] = [countOf(old.levels), countOf(now.levels)];
  if (was > is) return no(`The later file has ${is} facts and the earlier one ${was}: ${was - is} facts were lost.`);
  // The head of the earlier file, and not only its lines, must be one that the later one went through.
  const { size, root } = old.header.head;
  if (rootAt(now.levels, size) !== root) return no('The later file never had the head that the earlier one states.');
  return {
    extends: true,
    fork: null,
    detail: `The later file goes on from the earlier one, with ${is - was} more facts.`,
  };
}

function countOf(levels: Levels): number {
  return (levels[0]?.length ?? 0) / 32;
}

/** The first leaf that differs among those that both have. */
function firstOther([old]: Levels, [now]: Levels): number | null {
  if (old === undefined || now === undefined) return null;
  const both = Math.min(old.length, now.length) / 32;
  for (let at = 0; at < both; at += 1) if (hexAt(old, 32 * at) !== hexAt(now, 32 * at)) return at;
  return null;
}
