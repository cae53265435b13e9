/**
 * `npm run bench:scan -- --frames DIR --json OUT`: what the page's readers make of the PNG frames in a folder, whose
 * `truth.jsonl` says for each frame `file`, `symbology` and `payload` (base64).
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { parsePng } from './png';
import { parseTruth, scoreOf, scoreRow } from './scan-score';
import type { Row } from './scan-score';
import { readStill, startReaders } from './still';

const USAGE = 'Usage: npm run bench:scan -- --frames DIR [--json OUT]  DIR has PNG frames and truth.jsonl.';

/** Reads every frame that the truth names. A frame that is missing or no PNG file ends the bench: it proves nothing. */
async function readAll(folder: string): Promise<readonly Row[]> {
  const rows: Row[] = [];
  for (const truth of parseTruth(readFileSync(join(folder, 'truth.jsonl'), 'utf8'))) {
    const frame = parsePng(readFileSync(join(folder, truth.file)));
    if (!frame.ok) throw new Error(`${truth.file}: ${frame.detail}`);
    const { accepted, tookMs } = await readStill(frame.value);
    rows.push(scoreRow(truth, accepted?.payload ?? null, tookMs));
  }
  return rows;
}

/** Resolves to the exit code: 0 when every frame was looked at, 2 when the call was wrong or a file cannot be read. */
export async function run(args: readonly string[]): Promise<number> {
  try {
    const options = { frames: { type: 'string' }, json: { type: 'string' } } as const;
    const { values } = parseArgs({ args: [...args], options });
    if (values.frames === undefined) throw new Error('--frames is missing.');
    await startReaders();
    const rows = await readAll(values.frames);
    if (rows.length === 0) throw new Error('truth.jsonl names no frame.');
    const score = scoreOf(rows);
    if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(score, null, 2)}\n`);
    console.log(JSON.stringify({ ...score, rows: undefined }, null, 2));
    return 0;
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`);
    return 2;
  }
}
