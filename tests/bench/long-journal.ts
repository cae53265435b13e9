/** A sound journal of any length, made of one pack that is told again and again, for timing the verifier. */
import { makeCheckpointText } from '../../src/record/chain/checkpoint';
import { makeExportLines, type ExportFile } from '../../src/record/chain/export-file';
import { EMPTY_RANGE, extendRange, rootOfRange } from '../../src/record/chain/compact-range';
import { createDigest, leafHash, makeHashHex } from '../../src/record/chain/hash';
import { makeUtf8 } from '../../src/record/chain/utf8';
import { keyTextOf, signed, type Signer } from '../../src/tools/exports/remake';

/** A checkpoint after this many packs. */
const PACKS_PER_CHECKPOINT = 100;

interface Line {
  readonly text: string;
  readonly seq: number;
}

/** Exactly `facts` facts; the last pack may be unfinished. `pack` is the exported pack that is repeated. */
export async function makeLongJournal(facts: number, pack: ExportFile, signer: Signer): Promise<Uint8Array> {
  const template = templateOf(pack);
  const first = pack.facts[0]?.fact.seq ?? 0;
  let range = EMPTY_RANGE;
  const factLines: Uint8Array[] = [];
  const seals: string[] = [];
  const checkpoints: string[] = [];
  for (let seq = 0; seq < facts; seq += 1) {
    const at = seq % template.length;
    const round = Math.floor(seq / template.length);
    const line = template[at];
    if (line === undefined) throw new Error('the pack has facts');
    const bytes = makeUtf8(again(line.text, { round, seq, from: round * template.length - first }));
    const leaf = leafHash(bytes);
    range = extendRange(range, leaf);
    factLines.push(bytes);
    seals.push(`{"leaf":"${makeHashHex(leaf)}","seq":${seq}}`);
    const ends = at === template.length - 1 && round % PACKS_PER_CHECKPOINT === 0;
    if (!ends && seq !== facts - 1) continue;
    const state = { origin: signer.name, size: seq + 1, root: rootOfRange(range), extensions: [] };
    checkpoints.push(await signed(makeCheckpointText(state), signer));
  }
  const head = { size: facts, root: makeHashHex(rootOfRange(range)) };
  const bare: ExportFile = { head, pack: null, facts: [], checkpoints, keys: [await keyTextOf(signer)] };
  // Everything but the facts and seals as the kiosk writes it.
  const [header = '', ...below] = [...makeExportLines(bare)].slice(0, -1);
  const begin = header.replace('"facts":0', `"facts":${facts}`);
  return joined([makeUtf8(begin), ...factLines, ...[...seals, ...below].map(makeUtf8)]);
}

/** The facts of the pack, with marks where number, pack and scans stand. */
function templateOf(pack: ExportFile): readonly Line[] {
  return pack.facts.map(({ fact, bytes }) => ({ text: new TextDecoder().decode(bytes), seq: fact.seq }));
}

function again(text: string, { round, seq, from }: { round: number; seq: number; from: number }): string {
  return text
    .replaceAll('"pack-0002"', `"pack-${round}"`)
    .replaceAll('"scan-', `"r${round}-scan-`)
    .replace(/"fact":(\d+)/, (_, target: string) => `"fact":${Number(target) + from}`)
    .replace(/"seq":\d+/, `"seq":${seq}`);
}

/** The lines with their ends, and the digest of it all. */
function joined(lines: readonly Uint8Array[]): Uint8Array {
  const end = makeUtf8(`{"sha256":"${'0'.repeat(64)}"}\n`);
  const all = new Uint8Array(lines.reduce((sum, { length }) => sum + length + 1, end.length));
  let at = 0;
  for (const line of lines) {
    all.set(line, at);
    at += line.length;
    all[at] = 0x0a;
    at += 1;
  }
  const digest = createDigest();
  digest.update(all.subarray(0, at));
  all.set(makeUtf8(`{"sha256":"${makeHashHex(digest.hash())}"}\n`), at);
  return all;
}
