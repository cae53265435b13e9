/** The exports of demo-data: made again byte for byte, the sound ones sound, every tampered one found and named. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyPaper, type PaperTrust } from '../../../src/record/verify/verify-paper';
import { verifyRecord, type RecordVerdict } from '../../../src/record/verify/verify-record';
import { demoFiles, makeDemoExports } from '../../../src/tools/commands/exports';
import { demoLoft } from '../../e2e/support/demo-loft';

const FOLDER = join(import.meta.dirname, '../../../demo-data/exports');
const read = (file: string): Uint8Array => new Uint8Array(readFileSync(join(FOLDER, file)));
const KEYS = [readFileSync(join(FOLDER, 'loft-key.txt'), 'utf8').trim()];
const verify = (bytes: Uint8Array): Promise<RecordVerdict> => verifyRecord(bytes, { keys: KEYS, checkSignature });
const ROWS = JSON.parse(readFileSync(join(FOLDER, 'tampered.json'), 'utf8')) as {
  file: string;
  done: string;
  finds: string;
}[];

describe('the tool that made them', () => {
  let made: ReadonlyMap<string, string>;
  beforeAll(async () => {
    made = await demoFiles(await makeDemoExports(demoLoft(), 'test'));
  });

  it('makes files of the same names, the sound ones sound and the others not', async () => {
    expect(readdirSync(FOLDER).sort()).toEqual([...made.keys()].sort());
    for (const [file, text] of made) {
      if (!file.endsWith('.jsonl')) continue;
      const { sound, findings } = await verify(new TextEncoder().encode(text));
      const expected = ROWS.find((row) => row.file === file)?.finds;
      expect(sound, file).toBe(expected === undefined);
      if (expected !== undefined) expect(findings.map(({ what }) => what)).toContain(expected);
    }
  });

  it('makes the same bytes again', async () => {
    const again = await makeDemoExports(demoLoft(), 'again');
    expect(again.sound.text).toBe(made.get('sound.jsonl'));
  });
});

describe('the sound exports', () => {
  it.each(['sound.jsonl', 'sound-one-pack.jsonl'])('%s: nothing is found', async (file) => {
    const verdict = await verify(read(file));
    expect(verdict.findings).toEqual([]);
    expect(verdict.sound).toBe(true);
    expect(verdict.keys).toEqual(KEYS);
  });

  it('tell of every kind of interruption', () => {
    const text = readFileSync(join(FOLDER, 'sound.jsonl'), 'utf8');
    const kinds = ['checkInFailed', 'stopped', 'corrected', 'holdReturned', 'verdictLapsed', 'restarted', 'handedOver'];
    for (const kind of [...kinds, 'scanRefused', 'stoodBy', 'clockJumped', 'signed']) {
      expect(text, kind).toContain(`"kind":"${kind}"`);
    }
  });
});

describe('the tampered exports', () => {
  it('are at least twelve', () => expect(ROWS.length).toBeGreaterThanOrEqual(12));

  it.each(ROWS)('$file: $done', async ({ file, finds }) => {
    const verdict = await verify(read(file));
    expect(verdict.sound).toBe(false);
    expect(verdict.findings.map(({ what }) => what)).toContain(finds);
    for (const { detail } of verdict.findings) expect(detail).toMatch(/^[A-Z“].+\.$/s);
  });
});

describe('random alterations', () => {
  const sound = read('sound.jsonl');
  const lines = new TextDecoder().decode(sound).split('\n').slice(0, -1);
  let state = 20_261_125;
  const roll = (sides: number): number => (state = (state * 48_271) % 2_147_483_647) % sides;
  const joined = (all: readonly string[]): Uint8Array =>
    new TextEncoder().encode(all.map((one) => `${one}\n`).join(''));
  const ways: readonly (() => Uint8Array)[] = [
    () => {
      const bit = roll(sound.length * 8);
      return sound.with(bit >> 3, (sound[bit >> 3] ?? 0) ^ (1 << (bit & 7)));
    },
    () => sound.slice(0, roll(sound.length)),
    () => joined(lines.toSpliced(roll(lines.length), 1)),
    () => joined(lines.toSpliced(roll(lines.length), 0, lines[roll(lines.length)] ?? '')),
    () => {
      const [a, b] = [roll(lines.length), roll(lines.length)];
      return joined(lines.with(a, lines[b] ?? '').with(b, lines[a] ?? ''));
    },
    () => {
      const from = roll(lines.length);
      return joined(lines.toSpliced(from, 1).toSpliced(roll(lines.length), 0, lines[from] ?? ''));
    },
  ];

  it('1,000 made, 1,000 found', async () => {
    let made = 0;
    let found = 0;
    while (made < 1_000) {
      const altered = ways[made % ways.length]?.() ?? sound;
      if (altered.length === sound.length && altered.every((byte, at) => byte === sound[at])) continue;
      made += 1;
      if (!(await verify(altered)).sound) found += 1;
    }
    expect(found).toBe(1_000);
  }, 120_000);
});

describe('the printed card', () => {
  const text = readFileSync(join(FOLDER, 'card.txt'), 'utf8').trim();
  const trust: PaperTrust = { keys: KEYS, checkSignature, factBytes: () => Promise.resolve(null) };

  it('is genuine, and says what it must say', async () => {
    const verdict = await verifyPaper(text, trust);
    expect(verdict).toMatchObject({ genuine: true, differs: [] });
    expect(verdict.says).toContainEqual({ name: 'Last day of use', value: '2027-02-26' });
    expect(verdict.says).toContainEqual({ name: 'canopy', value: 'RSY-7590-483' });
    expect(text.length).toBeLessThan(900);
  });

  it('with any one character changed is not', async () => {
    for (let at = 0; at < text.length; at += 1) {
      const other = text[at] === 'A' ? 'B' : 'A';
      const altered = text.slice(0, at) + other + text.slice(at + 1);
      expect((await verifyPaper(altered, trust)).genuine, `character ${at}`).toBe(false);
    }
  });

  it('of another key, of another fact and of no card at all is not', async () => {
    const wrong = async (given: string, more: Partial<PaperTrust>): Promise<string> => {
      const verdict = await verifyPaper(given, { ...trust, ...more });
      expect(verdict.genuine).toBe(false);
      return verdict.differs.join();
    };
    expect(await wrong(text, { keys: [] })).toMatch(/none of the keys/);
    const other = { factBytes: () => Promise.resolve(Uint8Array.of(1)) };
    expect(await wrong(text, other)).toMatch(/not the one that the card was made from/);
    for (const given of [
      '',
      'SCP1',
      'SCP1AAAA',
      text.slice(0, -2),
      `${text}A`,
      text.toLowerCase(),
      'x'.repeat(9_000),
    ]) {
      expect(await wrong(given, {})).toMatch(/no card’s code/);
    }
  });
});
