/**
 * What the readers make of thousands of made frames, as JSON: `npm run bench:frames -- --class sweep --from 0 --to 480`.
 * `--write DIR` also writes each frame as a PNG file beside a `truth.jsonl`, for `npm run bench:scan`.
 */
import { appendFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { agreementStep, NOTHING_SEEN } from '../../src/scan/camera/agreement';
import { FIRST_PLAN, passesOf, planNext } from '../../src/scan/camera/pass-plan';
import { readViews } from '../../src/scan/camera/second-reader';
import { percentile } from './append';
import { scoreRow } from './scan-score';
import { readFirst, readStill, startReaders } from './still';
import { FRAME_CLASSES, frameSpec } from '../scan/frames';
import type { FrameSpec } from '../scan/frames';
import { labelPicture } from '../scan/pictures';
import { encodePng } from '../scan/png';

/** A wrong reading in any view is followed through this many frames of the same label, as the page would see it. */
const MORE_FRAMES = 24;

interface Tally {
  frames: number;
  read: number;
  /** Frames in which any reading was wrong, and those in which the wrong one is what the page's rule picks. */
  misread: number;
  accepted: number;
}

const bump = (tallies: Map<string, Tally>, name: string): Tally => {
  const tally = tallies.get(name) ?? { frames: 0, read: 0, misread: 0, accepted: 0 };
  tallies.set(name, tally);
  return tally;
};

function verdictOf(spec: FrameSpec, payload: string): 'read' | 'missed' | 'misread' {
  const truth = { file: '', symbology: '', payload: Buffer.from(spec.picture.payload, 'utf8') };
  return scoreRow(truth, payload, 0).verdict;
}

/** Whether frames that follow one another, each with its own noise and tremor, agree on something wrong. */
async function acceptsWrongly(spec: FrameSpec): Promise<boolean> {
  const { picture } = spec;
  const [x, y] = picture.at ?? [0.5, 0.5];
  let [state, plan] = [NOTHING_SEEN, FIRST_PLAN];
  for (let turn = 0; turn < MORE_FRAMES; turn += 1) {
    const at = [x + (((turn * 7) % 5) - 2) / 2560, y + (((turn * 3) % 5) - 2) / 1440] as const;
    const frame = await labelPicture({ ...picture, at, seed: (picture.seed ?? 1) + 500_000 + turn });
    const answer = await readViews(frame, passesOf(plan));
    plan = planNext(plan, answer);
    const step = agreementStep(state, {
      timeMs: turn * 60,
      first: readFirst(frame),
      second: answer.readings,
      pass: answer.pass,
    });
    state = step.state;
    if (step.accepted !== null && verdictOf(spec, step.accepted.payload) === 'misread') return true;
  }
  return false;
}

async function write(folder: string, name: string, spec: FrameSpec): Promise<void> {
  writeFileSync(join(folder, name), encodePng(await labelPicture(spec.picture)));
  const payload = Buffer.from(spec.picture.payload, 'utf8').toString('base64');
  appendFileSync(join(folder, 'truth.jsonl'), `${JSON.stringify({ file: name, symbology: spec.kind, payload })}\n`);
}

/** Resolves to the exit code, 1 when anything wrong was accepted. */
export async function run(args: readonly string[]): Promise<number> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      class: { type: 'string', default: 'sweep' },
      from: { type: 'string', default: '0' },
      to: { type: 'string', default: '480' },
      write: { type: 'string' },
    },
  });
  const of = FRAME_CLASSES.find((known) => known === values.class);
  if (of === undefined) throw new Error(`--class is one of ${FRAME_CLASSES.join(', ')}`);
  await startReaders();
  if (values.write !== undefined) {
    mkdirSync(values.write, { recursive: true });
    writeFileSync(join(values.write, 'truth.jsonl'), '');
  }
  const tallies = new Map<string, Tally>();
  const times: number[] = [];
  const wrong: unknown[] = [];
  const missed: unknown[] = [];
  for (let index = Number(values.from); index < Number(values.to); index += 1) {
    const spec = frameSpec(of, index);
    const still = await readStill(await labelPicture(spec.picture));
    if (values.write !== undefined) await write(values.write, `${of}-${String(index)}.png`, spec);
    const isWrong = still.readings.some(({ payload }) => verdictOf(spec, payload) === 'misread');
    const isRead = still.accepted !== null && verdictOf(spec, still.accepted.payload) === 'read';
    const isAccepted = (still.accepted !== null && !isRead) || (isWrong && (await acceptsWrongly(spec)));
    for (const name of ['all', spec.kind, ...(of === 'sweep' ? [spec.condition] : [])]) {
      const tally = bump(tallies, name);
      tally.frames += 1;
      tally.read += isRead ? 1 : 0;
      tally.misread += isWrong ? 1 : 0;
      tally.accepted += isAccepted ? 1 : 0;
    }
    if (isWrong) wrong.push({ index, kind: spec.kind, picture: spec.picture, isAccepted, readings: still.readings });
    if (!isRead && of === 'good') missed.push({ index, kind: spec.kind, picture: spec.picture, still });
    times.push(still.tookMs);
  }
  const msPerFrame = { p50: percentile(times, 50), p95: percentile(times, 95) };
  console.log(JSON.stringify({ ...values, msPerFrame, tallies: Object.fromEntries(tallies), wrong, missed }));
  return (tallies.get('all')?.accepted ?? 0) > 0 ? 1 : 0;
}
