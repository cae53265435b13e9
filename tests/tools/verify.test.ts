import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { makeExportText } from '../../src/record/chain/export-file';
import { runVerify } from '../../src/tools/verify';
import { exportOf } from '../fakes/ledger-export';
import { countDraft } from '../fakes/ledger-facts';

let folder = '';
const said: string[] = [];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'verify-'));
});
beforeEach(() => {
  said.length = 0;
  vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
  vi.spyOn(console, 'error').mockImplementation((text: string) => void said.push(text));
});
afterAll(async () => {
  vi.restoreAllMocks();
  await rm(folder, { recursive: true });
});

const FILE = exportOf(
  Array.from({ length: 120 }, (_, i) => countDraft('pack-1', i)),
  null,
);
const run = async (text: string): Promise<number> => {
  const file = join(folder, 'export.jsonl');
  await writeFile(file, text);
  return runVerify([file]);
};

describe('the command verify', () => {
  it('states size and root of a sound export and ends with 0', async () => {
    expect(await run(makeExportText(FILE))).toBe(0);
    expect(said).toEqual([
      'whole journal: 120 facts',
      `head as stated: 120 facts, root ${FILE.head.root}`,
      'bytes, order and root: sound',
    ]);
  });

  it('names the line of what was altered and ends with 1', async () => {
    expect(await run(makeExportText(FILE).replace('"count":7,', '"count":8,'))).toBe(1);
    expect(said).toContainEqual(expect.stringMatching(/export\.jsonl:9: altered: Fact 7 /));
    expect(said.at(-1)).toMatch(/NOT SOUND/);
  });

  it('counts what it does not print', async () => {
    expect(await run(makeExportText(FILE).replaceAll('"count"', '"cound"'))).toBe(1);
    expect(said).toContain('... and 72 more findings');
  });

  it('a missing file and wrong use end with 2', async () => {
    expect(await runVerify([join(folder, 'absent')])).toBe(2);
    expect(await runVerify([])).toBe(2);
    expect(await runVerify(['a', 'b'])).toBe(2);
  });
});
