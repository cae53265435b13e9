/** The outcomes that an event can have, each made in one place. */
import { assert } from '../../domain/assert';
import type { FactDraft } from '../../domain/fact';
import { bounded } from '../words/bounded';
import type { Here, PackContext, Phase, Presence, ReadBack, Remark } from './context';
import type { Words } from '../words/words';
import { joinWords, plain } from '../words/words';

/** Where an event leads, and what changes in the machine's own memory. Nothing recorded changes here. */
export interface Decision {
  readonly to: Phase | 'storing';
  readonly patch: Partial<PackContext>;
}

/** A refusal: what is wrong, what to do. */
export function refusal(words: Words): Remark {
  return { tone: 'refusal', words };
}

/** An answer or confirmation. */
export function answer(words: Words): Remark {
  return { tone: 'answer', words };
}

/** Something is wrong that the rigger did not do wrong. */
export function warning(words: Words): Remark {
  return { tone: 'warning', words };
}

/** A fact not yet stored. */
export function draft({ pack }: Pick<PackContext, 'pack'>, { by, at, body }: Omit<FactDraft, 'pack'>): FactDraft {
  return { pack, at, by, body: bounded(body) };
}

/** Stays, and says something. */
export function remarkOn(here: Here, remark: Remark): Decision {
  const { utterance } = here.context;
  return { to: here.phase, patch: { remark, brief: true, reading: false, utterance: utterance + 1 } };
}

/** Goes to another phase of the same task, and says what that one asks. */
export function moveTo(here: Here, to: Phase, patch: Partial<PackContext> = {}): Decision {
  const { utterance } = here.context;
  return { to, patch: { remark: null, brief: false, reading: false, utterance: utterance + 1, ...patch } };
}

/** What every read-back ends in: no phrase of the grammar, so that a voice heard too late affirms nothing. */
const ASKED = plain('Is that right?');

/** Repeats something and waits for "affirm"; `repeated` is what counts then, as a sentence of its own. */
export function readBackOf(here: Here, repeated: Words, onAffirm: ReadBack['onAffirm']): Decision {
  const readBack: ReadBack = { words: joinWords([repeated, ASKED]), from: here.phase, onAffirm };
  return moveTo(here, 'readingBack', { readBack });
}

export interface AfterStored {
  readonly remark?: Remark | null;
  readonly presence?: Presence | null;
  readonly from?: Phase;
}

/**
 * Sends drafts to storage, what is owed first; what follows of itself is added once for the whole decision. Screen and
 * voice react only once all of it is stored (invariant 1).
 */
export function store(here: Here, drafts: readonly FactDraft[], after: AfterStored = {}): Decision {
  const { context } = here;
  const all = [...context.owed, ...drafts];
  assert(all.length > 0, 'there is something to store');
  return {
    to: 'storing',
    patch: {
      pending: {
        drafts: all,
        from: after.from ?? here.phase,
        remark: after.remark ?? null,
        presence: after.presence ?? null,
      },
    },
  };
}

/** Stores one act of the present packer. */
export function storeAct(here: Here, { at, body }: Pick<FactDraft, 'at' | 'body'>, after: AfterStored = {}): Decision {
  return store(here, [draft(here.context, { by: here.context.state.packer, at, body })], after);
}
