/** How long the verifier takes for a long journal, and whether it finds every one of many random alterations. */
import { parseExportText } from '../../src/record/chain/export-file';
import { checkSignature } from '../../src/record/seal/ed25519';
import { verifyRecord } from '../../src/record/verify/verify-record';
import { makeDemoExports } from '../../src/tools/commands/exports';
import { keyTextOf } from '../../src/tools/exports/remake';
import { must } from '../../src/tools/exports/table';
import { makeLongJournal } from './long-journal';
import type { Loft } from '../../src/domain/loft';

export interface VerifyFigures {
  readonly facts: number;
  readonly megabytes: number;
  readonly seconds: number;
  readonly sound: boolean;
}

/** Verifies a sound journal of this many facts, each of a real pack. */
export async function benchVerify(loft: Loft, facts: number): Promise<VerifyFigures> {
  const { sound, onePack } = await makeDemoExports(loft, `bench-${facts}`);
  const bytes = await makeLongJournal(facts, must(parseExportText(onePack)), sound.signer);
  const keys = [await keyTextOf(sound.signer)];
  const begun = performance.now();
  const verdict = await verifyRecord(bytes, { keys, checkSignature });
  const seconds = Math.round(performance.now() - begun) / 1000;
  const first = verdict.findings[0];
  if (first !== undefined)
    throw new Error(`the long journal is not sound: line ${String(first.line)}: ${first.detail}`);
  return { facts: verdict.facts, megabytes: Math.round(bytes.length / 1e6), seconds, sound: verdict.sound };
}

export interface AlterationFigures {
  readonly made: number;
  readonly found: number;
}

/** Makes this many alterations of the sound export, one at a time, and counts those that are found. */
export async function benchAlterations(loft: Loft, count: number): Promise<AlterationFigures> {
  const { sound, key } = await makeDemoExports(loft, 'alterations');
  const bytes = new TextEncoder().encode(sound.text);
  const lines = sound.text.split('\n').slice(0, -1);
  let made = 0;
  let found = 0;
  while (made < count) {
    const altered = alter(bytes, lines, made);
    if (altered.length === bytes.length && altered.every((byte, at) => byte === bytes[at])) continue;
    made += 1;
    if (!(await verifyRecord(altered, { keys: [key], checkSignature })).sound) found += 1;
  }
  return { made, found };
}

/** One bit, one byte, a cut, or a line that is dropped, repeated, exchanged or moved. */
function alter(bytes: Uint8Array, lines: readonly string[], kind: number): Uint8Array {
  const roll = (sides: number): number => Math.floor(Math.random() * sides);
  const line = (): string => lines[roll(lines.length)] ?? '';
  const text = (all: readonly string[]): Uint8Array => new TextEncoder().encode(all.map((one) => `${one}\n`).join(''));
  const [a, b] = [roll(lines.length), roll(lines.length)];
  switch (kind % 7) {
    case 0: {
      const bit = roll(bytes.length * 8);
      return bytes.with(bit >> 3, (bytes[bit >> 3] ?? 0) ^ (1 << (bit & 7)));
    }
    case 1:
      return bytes.with(roll(bytes.length), roll(256));
    case 2:
      return bytes.slice(0, roll(bytes.length));
    case 3:
      return text(lines.toSpliced(a, 1));
    case 4:
      return text(lines.toSpliced(a, 0, line()));
    case 5:
      return text(lines.with(a, lines[b] ?? '').with(b, lines[a] ?? ''));
    default:
      return text(lines.toSpliced(a, 1).toSpliced(b, 0, lines[a] ?? ''));
  }
}
