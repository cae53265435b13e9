/** `merkle-check FILE.jsonl`: runs published RFC 6962 proof cases, good and tampered, through our proof checks. */
import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import type { Hash } from '../../record/chain/hash';
import { checkConsistency, checkInclusion } from '../../record/chain/proof';

/** Base64 as Go writes byte slices: null and "" are both no bytes. */
const bytes = z
  .union([z.base64(), z.null()])
  .transform((text): Hash => new Uint8Array(Buffer.from(text ?? '', 'base64')));
const proof = z.union([z.array(bytes), z.null()]).transform((hashes) => hashes ?? []);
/** Sizes in the published cases go up to 2^64 - 1; what a double cannot hold is for the check to refuse. */
const size = z.number();
const common = { proof, wantErr: z.boolean(), case: z.string().optional(), desc: z.string().optional() };

const ROW = z.discriminatedUnion('kind', [
  z.object({ ...common, kind: z.literal('inclusion'), leafIdx: size, treeSize: size, root: bytes, leafHash: bytes }),
  z.object({ ...common, kind: z.literal('consistency'), size1: size, size2: size, root1: bytes, root2: bytes }),
]);
export type ProofRow = z.infer<typeof ROW>;

/** Whether our check accepts the proof of this row. */
export function acceptsProof(row: ProofRow): boolean {
  if (row.kind === 'inclusion') {
    const { leafIdx, treeSize, leafHash, root } = row;
    return checkInclusion({ index: leafIdx, size: treeSize, leaf: leafHash, root, proof: row.proof }).ok;
  }
  const { size1, size2, root1, root2 } = row;
  return checkConsistency({
    firstSize: size1,
    secondSize: size2,
    firstRoot: root1,
    secondRoot: root2,
    proof: row.proof,
  }).ok;
}

/** One line of the file: null when it passes, otherwise why it does not. */
export function faultOfLine(line: string): string | null {
  const row = readRow(line);
  if (typeof row === 'string') return row;
  if (acceptsProof(row) !== row.wantErr) return null;
  const name = row.case ?? row.desc ?? row.kind;
  return row.wantErr ? `${name}: accepted, but it must be refused` : `${name}: refused, but it is sound`;
}

function readRow(line: string): ProofRow | string {
  let json: unknown;
  try {
    json = JSON.parse(line);
  } catch {
    return 'not JSON';
  }
  const row = ROW.safeParse(json);
  return row.success ? row.data : `not a proof case: ${z.prettifyError(row.error).replaceAll('\n', ' ')}`;
}

/**
 * Runs every row of the file and prints `N passed, N failed`, with one line for each failure before it.
 * Resolves to the exit code: 0 when every row passes, 1 when one does not or there is none, 2 for wrong use.
 */
export async function runMerkleCheck(args: readonly string[]): Promise<number> {
  const [file, ...more] = args;
  if (file === undefined || more.length > 0) {
    console.error('Usage: merkle-check FILE.jsonl');
    return 2;
  }
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch {
    console.error(`Cannot read ${file}; check the name of the file.`);
    return 2;
  }
  let passed = 0;
  let failed = 0;
  text.split('\n').forEach((line, i) => {
    if (line.trim() === '') return;
    const fault = faultOfLine(line);
    if (fault === null) passed += 1;
    else {
      failed += 1;
      console.log(`${file}:${i + 1}: ${fault}`);
    }
  });
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 && passed > 0 ? 0 : 1;
}
