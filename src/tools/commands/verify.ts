/** `verify EXPORT`, `verify --paper TEXT`: recomputes an exported journal, or a data card, and names what differs. */
import { readFile, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { checkSignature } from '../../record/seal/ed25519';
import { compareExports } from '../../record/verify/compare-exports';
import { readExport } from '../../record/verify/verify-export';
import { verifyPaper } from '../../record/verify/verify-paper';
import { verifyRecord } from '../../record/verify/verify-record';

const USAGE = `Usage: verify EXPORT [--key KEY]
       verify --earlier OLD NEW [--key KEY]  whether NEW goes on from OLD, or where the two fork
       verify --paper TEXT [--key KEY] [EXPORT]
KEY is the text of a loft's key, or a file with one on each line. Without it, loft-key.txt beside the export counts.`;

/** Findings beyond this many are counted, not printed. */
const SHOWN = 50;
/** More than a kiosk writes in decades. */
const LARGEST_BYTES = 2_000_000_000;

class Wrong extends Error {}

/** Resolves to the exit code: 0 for sound or genuine, 1 for findings, 2 for wrong use. */
export async function runVerify(args: readonly string[]): Promise<number> {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { key: { type: 'string' }, paper: { type: 'string' }, earlier: { type: 'string' } },
    });
    const [file, ...more] = positionals;
    if (more.length > 0 || (file === undefined && values.paper === undefined)) throw new Wrong(USAGE);
    const bytes = file === undefined ? null : await bytesOf(file);
    const known = await keysOf(values.key ?? null, file ?? null);
    if (values.earlier !== undefined && file !== undefined && bytes !== null) {
      return await extended({ file: values.earlier, bytes: await bytesOf(values.earlier) }, { file, bytes }, known);
    }
    if (values.paper !== undefined) return await card(values.paper, known.keys, bytes);
    return file === undefined || bytes === null ? 2 : await exported({ file, bytes }, known);
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return 2;
  }
}

async function bytesOf(file: string): Promise<Uint8Array> {
  const size = await stat(file).then(
    (found) => found.size,
    () => null,
  );
  if (size === null) throw new Wrong(`Cannot read ${file}; check the name of the file.`);
  if (size > LARGEST_BYTES) throw new Wrong(`${file} is too large to be an export.`);
  return readFile(file);
}

type KeysFrom = 'given' | 'beside';

interface Keys {
  readonly keys: readonly string[];
  readonly from: KeysFrom;
}

interface Given {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** The loft's keys: those given, or those that lie beside the export. */
async function keysOf(given: string | null, file: string | null): Promise<Keys> {
  const lines = (text: string): readonly string[] =>
    text
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '');
  if (given !== null) {
    const text = await readFile(given, 'utf8').catch(() => given);
    return { keys: lines(text), from: 'given' };
  }
  if (file === null) return { keys: [], from: 'beside' };
  const text = await readFile(join(dirname(file), 'loft-key.txt'), 'utf8').catch(() => '');
  return { keys: lines(text), from: 'beside' };
}

const UNKNOWN_KEY =
  'signed by a key that the file itself names: whose it is is not known (give the loft’s own with --key)';

function sayTrusted(from: KeysFrom): string {
  if (from === 'given') return 'the loft’s key that was given';
  return 'the key in loft-key.txt beside the file, which proves nothing if it came with the file';
}

async function exported({ file, bytes }: Given, { keys, from }: Keys): Promise<number> {
  const verdict = await verifyRecord(bytes, { keys, checkSignature });
  const { sound, facts, packs, checkpoints, head, pack, findings } = verdict;
  for (const { line, what, detail } of findings.slice(0, SHOWN)) {
    console.log(`${file}${line === null ? '' : `:${line}`}: ${what}: ${detail}`);
  }
  for (const { seq, from, to, daylightSaving } of verdict.jumps.slice(0, SHOWN)) {
    console.log(
      `note: at fact ${seq} ${daylightSaving ? 'daylight saving changed' : 'the clock jumped'} from ${from} to ${to}; dates are judged by the later day`,
    );
  }
  for (const { seq, by, size, behind } of verdict.restores.slice(0, SHOWN)) {
    const lost =
      behind === null
        ? ''
        : `, though the kiosk had sealed ${behind.size} facts (root ${behind.root}): what lay between is lost`;
    console.log(`note: at fact ${seq} ${by} put the journal back from a copy of ${size} facts${lost}`);
  }
  if (findings.length > SHOWN) console.log(`... and ${findings.length - SHOWN} more findings`);
  if (head !== null) {
    console.log(
      `${pack === null ? `whole journal: ${packs} packs, ` : `pack ${pack}: `}${facts} facts, ${checkpoints} checkpoints`,
    );
    console.log(`head as stated: ${head.size} facts, root ${head.root}`);
    for (const { key, checkpoints: count } of verdict.signers) {
      const whose = keys.includes(key) ? sayTrusted(from) : UNKNOWN_KEY;
      console.log(`${count} checkpoints signed with ${key}: ${whose}`);
    }
  }
  console.log(sound ? 'sound' : `NOT SOUND, ${findings.length} findings`);
  return sound ? 0 : 1;
}

/** Both must be sound, and the later one must go on from the earlier. */
async function extended(old: Given, now: Given, known: Keys): Promise<number> {
  const codes = [await exported(old, known), await exported(now, known)];
  const { extends: goesOn, detail } = compareExports(old.bytes, now.bytes);
  console.log(detail);
  return goesOn && codes.every((code) => code === 0) ? 0 : 1;
}

async function card(text: string, keys: readonly string[], bytes: Uint8Array | null): Promise<number> {
  if (keys.length === 0) throw new Wrong(`A paper is checked against the loft's key.\n${USAGE}`);
  const facts = new Map<number, Uint8Array>();
  if (bytes !== null) {
    readExport(bytes, (_, value, raw) => {
      const seq = (value as { readonly seq: number }).seq;
      facts.set(seq, raw);
    });
  }
  const factBytes = (seq: number): Promise<Uint8Array | null> => Promise.resolve(facts.get(seq) ?? null);
  const { genuine, differs, says, seq } = await verifyPaper(text, { keys, checkSignature, factBytes });
  for (const why of differs) console.log(why);
  for (const { name, value } of says) console.log(`${name}: ${value}`);
  if (genuine && bytes !== null && seq !== null && !facts.has(seq)) console.log(`Fact ${seq} is not in this export.`);
  console.log(genuine ? 'genuine: compare these lines with the paper' : 'NOT GENUINE');
  return genuine ? 0 : 1;
}
