/** Which views of the next frame the deciding reader looks at: the frame itself, and one more in turn. */
import { isLinear, type Symbology } from '../sighting';
import { lookOf, NUDGES, PASSES } from './frame';
import type { Look, Pass } from './frame';

const isTurned = (look: Look): boolean => look.startsWith('turn');
const TURNED = PASSES.filter(isTurned);
const MENDED = PASSES.filter((look) => look !== 'plain' && !isTurned(look));

/**
 * The frame as it is reads matrix codes at any angle and upright linear ones; the others help it out in turn. A good
 * label at an angle must not wait for the views of bad pictures, which take several times as long: all turned views
 * come round between one of those and the next. In a second round all are turned a little otherwise: now and then bars
 * fall between the pixels in just one view (measured: 3 of 1,000 good linear labels were read in none of the first).
 */
const TURNS = ['', '+1.5', '-1.5'] as const;
const turnedBy = (look: Look, times: number): Pass => `${look}${TURNS[times % TURNS.length] ?? ''}`;
const OTHERS: readonly Pass[] = [0, 1].flatMap((round) =>
  MENDED.flatMap((look, index) => [
    ...TURNED.map((turned) => turnedBy(turned, round === 0 ? 0 : index + 1)),
    turnedBy(look, round),
  ]),
);

/** For a frame that is most likely smeared: not worth more. */
export const PLAIN_ONLY: readonly Pass[] = ['plain'];

export interface PassPlan {
  /** Index of the other view to be used next. */
  readonly turn: number;
  /** The view that showed a linear code, which another one beside it must now confirm; null while nothing is found. */
  readonly found: Pass | null;
  /** Frames since then. */
  readonly tries: number;
}

export const FIRST_PLAN: PassPlan = { turn: 0, found: null, tries: 0 };

/** What a frame showed, as far as the plan goes. */
export interface PassFinding {
  /** Null where nothing was read. */
  readonly pass: Pass | null;
  readonly readings: readonly { readonly symbology: Symbology }[];
}

/** The other views of the same look. */
function besides(found: Pass): readonly Pass[] {
  const look = lookOf(found);
  return [look, ...NUDGES.map((nudge): Pass => `${look}${nudge}`)].filter((pass) => pass !== found);
}

/** The views for the next frame, in order; each is looked at only if the one before shows nothing. */
export function passesOf({ turn, found, tries }: PassPlan): readonly Pass[] {
  if (found !== null) {
    const beside = besides(found);
    // Where none of those beside it has shown the code, any other view may: every other frame is left to them.
    const isOther = tries >= beside.length && tries % 2 === 1;
    const next = isOther ? OTHERS[(turn + (tries >> 1)) % OTHERS.length] : beside[tries % beside.length];
    return [next ?? 'plain', found];
  }
  return ['plain', OTHERS[turn % OTHERS.length] ?? 'crop'];
}

/**
 * After a reading of a matrix code the same views are used again, so that the next frame agrees at once; after one of a
 * linear code another view beside it. Otherwise the turn goes on.
 */
export function planNext(plan: PassPlan, { pass, readings }: PassFinding): PassPlan {
  if (pass === null) return { turn: plan.found === null ? plan.turn + 1 : plan.turn, found: null, tries: 0 };
  if (!readings.some(({ symbology }) => isLinear(symbology))) return plan;
  const isSame = plan.found !== null && lookOf(pass) === lookOf(plan.found);
  return isSame ? { ...plan, tries: plan.tries + 1 } : { ...plan, found: pass, tries: 0 };
}

/**
 * Frames after which all views have had their turn, and once more beside one that showed something.
 * @internal The camera has no last frame: the bench of still pictures stops after so many.
 */
export const FRAMES_OF_A_ROUND = 3 * OTHERS.length;
