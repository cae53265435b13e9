/** One run of the camera: which frames are looked at, through which views, and what both readers make of each. */
import { agreementStep } from './agreement';
import type { AgreementState, SeenCode } from './agreement';
import type { FrameTaker } from './first-reader';
import type { Pass } from './frame';
import { FIRST_PACE, isIdle, isMoving, PACE_MS, paceMs, paceStep, thumbnailOf } from './pace';
import { hintOf, hintStep, measurePicture, NO_HINT } from './picture-hint';
import type { Hint, PictureMeasure } from './picture-hint';
import { FIRST_PLAN, PLAIN_ONLY, passesOf, planNext } from './pass-plan';
import type { ReaderAnswer } from './reader-calls';
import type { ReaderLink } from './reader-link';

/** What happened to one frame, for benches and tests. Times in milliseconds of `performance.now`. */
export interface FrameTiming {
  readonly takenMs: number;
  readonly decidedMs: number;
  /** Time spent by the first reader, on the page's thread, and by the deciding reader, on its own. */
  readonly firstTookMs: number;
  readonly secondTookMs: number;
  /** The view in which something was read; null for none. */
  readonly pass: Pass | null;
  readonly first: string | null;
  readonly second: readonly string[];
  readonly accepted: string | null;
  /** It was not clear which code is meant: several are in view, or a card is not aimed at. */
  readonly several: boolean;
}

export interface FrameLoopParts {
  readonly video: HTMLVideoElement;
  readonly link: ReaderLink;
  /** False as soon as this run has been stopped or replaced. */
  readonly isCurrent: () => boolean;
  /** What was seen lately outlives a run, so that a label held through a restart is not delivered twice. */
  readonly seen: { agreement: AgreementState };
  readonly onAccepted: (code: SeenCode) => void;
  readonly onStalled: () => void;
  /** What would help the readers, when that has changed; null for nothing. */
  readonly onHint: (hint: Hint | null) => void;
  readonly onFrame: (timing: FrameTiming) => void;
}

/** How often it is measured what would help: it takes some milliseconds of the page's thread. */
const HINT_MS = 250;
/** A camera that sends no new picture for this long has come loose. */
const STALLED_MS = 10_000;

/** Tells whether the video shows a picture that has not been looked at: the same one twice would agree with itself. */
function freshness(video: HTMLVideoElement, onStalled: () => void): () => boolean {
  let lastFrames = -1;
  let lastFreshMs = performance.now();
  return () => {
    const nowMs = performance.now();
    const frames = video.getVideoPlaybackQuality().totalVideoFrames;
    if (frames === lastFrames) {
      // A page that nobody sees is sent no pictures; that is no fault of the camera.
      if (document.hidden) lastFreshMs = nowMs;
      else if (nowMs - lastFreshMs > STALLED_MS) onStalled();
      return false;
    }
    lastFrames = frames;
    lastFreshMs = nowMs;
    return true;
  };
}

type Taken = Pick<FrameTiming, 'takenMs' | 'first' | 'firstTookMs'>;
type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** The taker of frames for one run of the camera. */
export function createFrameLoop(parts: FrameLoopParts): FrameTaker {
  const { link, isCurrent, seen } = parts;
  const isFresh = freshness(parts.video, parts.onStalled);
  let plan = FIRST_PLAN;
  let pace = FIRST_PACE;
  let dueMs = 0;
  let readDueMs = 0;
  let hintDueMs = 0;
  let measured: PictureMeasure | null = null;
  let hints = NO_HINT;
  /** Something was read and waits for a frame that agrees. */
  let isUndecided = false;

  const decide = (taken: Taken, answer: ReaderAnswer): void => {
    const { takenMs, first } = taken;
    const { state, accepted, several } = agreementStep(seen.agreement, {
      timeMs: takenMs,
      first,
      second: answer.readings,
      pass: answer.pass,
    });
    seen.agreement = state;
    isUndecided = state.some((track) => track.readMs === takenMs && !track.delivered) && !several;
    dueMs = takenMs + paceMs(pace, takenMs, isUndecided);
    readDueMs = takenMs + PACE_MS.read;
    const hint = answer.readings.length > 0 || measured === null ? null : hintOf(measured, isMoving(pace, takenMs));
    const before = hints.shown;
    hints = hintStep(hints, hint, takenMs);
    if (hints.shown !== before) parts.onHint(hints.shown);
    if (accepted !== null) parts.onAccepted(accepted);
    parts.onFrame({
      ...taken,
      decidedMs: performance.now(),
      secondTookMs: answer.tookMs,
      pass: answer.pass,
      second: answer.readings.map(({ payload }) => payload),
      accepted: accepted?.payload ?? null,
      several,
    });
  };

  return {
    wants: () => isCurrent() && performance.now() >= dueMs && link.isFree() && isFresh(),
    take: (frame) => {
      const takenMs = performance.now();
      pace = paceStep(pace, thumbnailOf(frame), takenMs);
      if (isIdle(pace, takenMs) && !isUndecided && takenMs < readDueMs) {
        dueMs = takenMs + PACE_MS.glance;
        return null;
      }
      if (takenMs >= hintDueMs) {
        hintDueMs = takenMs + HINT_MS;
        measured = measurePicture(frame);
      }
      // The first reader works in this thread and is done long before the answer can be handled.
      const taken: Mutable<Taken> = { takenMs, first: null, firstTookMs: 0 };
      const passes = isMoving(pace, takenMs) ? PLAIN_ONLY : passesOf(plan);
      void link.read(frame, passes).then((answer) => {
        if (answer === null || !isCurrent()) return;
        if (passes !== PLAIN_ONLY) plan = planNext(plan, answer);
        decide(taken, answer);
      });
      return (first, tookMs) => {
        taken.first = first;
        taken.firstTookMs = tookMs;
      };
    },
  };
}
