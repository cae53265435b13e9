/** `verify EXPORT`: recomputes an exported journal, or one pack of it, from its bytes and names everything that differs. */
import { readFile } from 'node:fs/promises';
import { verifyExport } from '../record/verify/verify-export';

/** Findings beyond this many are counted, not printed. */
const SHOWN = 50;

/** Resolves to the exit code: 0 for a sound export, 1 for findings, 2 for wrong use. */
export async function runVerify(args: readonly string[]): Promise<number> {
  const [file, ...more] = args;
  if (file === undefined || more.length > 0) {
    console.error('Usage: verify EXPORT');
    return 2;
  }
  let bytes: Uint8Array;
  try {
    bytes = await readFile(file);
  } catch {
    console.error(`Cannot read ${file}; check the name of the file.`);
    return 2;
  }
  const { sound, facts, head, pack, findings } = verifyExport(bytes);
  for (const { line, what, detail } of findings.slice(0, SHOWN)) {
    console.log(`${file}${line === null ? '' : `:${line}`}: ${what}: ${detail}`);
  }
  if (findings.length > SHOWN) console.log(`... and ${findings.length - SHOWN} more findings`);
  if (head !== null) console.log(`${pack === null ? 'whole journal' : `pack ${pack}`}: ${facts} facts`);
  if (head !== null) console.log(`head as stated: ${head.size} facts, root ${head.root}`);
  // What order and hashes can show; whether each act was allowed is another matter and is not judged here.
  console.log(sound ? 'bytes, order and root: sound' : `bytes, order and root: NOT SOUND, ${findings.length} findings`);
  return sound ? 0 : 1;
}
