/** The one value for what is listened for: everything that may be said and that is known beside it, compiled. */
import type { Result } from '@stowcall/grammar';
import { ok, parseJsgf } from '@stowcall/grammar';
import type { Automaton } from '../engine/automaton';
import { automatonOf } from '../engine/automaton';
import type { Phrases } from '../engine/phrases';

export interface ListenFor {
  readonly wanted: Automaton;
  /** With what is known beside it, so that it is not taken for what is wanted, and never told. */
  readonly all: Automaton;
  /** The wanted phrases that do little harm where they were not said: less certainty is enough for them. */
  readonly lowRisk: Automaton | null;
  /** What a wanted phrase with a slot must not be better said as; searched only once such a phrase was found. */
  readonly rivals: Automaton | null;
  /** Whether a phrase is to be described when it was said. It must then stand out more clearly than a command. */
  readonly isSampled: boolean;
}

/** The same before it is compiled; what is left out is none. */
export interface Listened<Of> {
  readonly wanted: readonly Of[];
  readonly others?: readonly Of[];
  readonly lowRisk?: readonly Of[];
  readonly rivals?: readonly Of[];
  readonly isSampled?: boolean;
}

/** Compiles what is listened for. Refused where nothing can be said with one of its parts. */
export function listenFor(phrases: Listened<Phrases>): Result<ListenFor, 'bad-grammar'> {
  const { wanted, others = [], lowRisk = [], rivals = [], isSampled = false } = phrases;
  const compiled = automatonOf(wanted);
  if (!compiled.ok) return compiled;
  const all = others.length === 0 ? compiled : automatonOf([...wanted, ...others]);
  if (!all.ok) return all;
  const low = automatonOrNone(lowRisk);
  if (!low.ok) return low;
  const more = automatonOrNone(rivals);
  if (!more.ok) return more;
  return ok({ wanted: compiled.value, all: all.value, lowRisk: low.value, rivals: more.value, isSampled });
}

function automatonOrNone(phrases: readonly Phrases[]): Result<Automaton | null, 'bad-grammar'> {
  return phrases.length === 0 ? ok(null) : automatonOf(phrases);
}

/** The same from JSGF texts. */
export function listenForTexts(texts: Listened<string>): Result<ListenFor, 'bad-grammar'> {
  const read = { wanted: phrasesIn(texts.wanted), others: phrasesIn(texts.others) };
  const more = { lowRisk: phrasesIn(texts.lowRisk), rivals: phrasesIn(texts.rivals) };
  if (!read.wanted.ok) return read.wanted;
  if (!read.others.ok) return read.others;
  if (!more.lowRisk.ok) return more.lowRisk;
  if (!more.rivals.ok) return more.rivals;
  return listenFor({
    wanted: read.wanted.value,
    others: read.others.value,
    lowRisk: more.lowRisk.value,
    rivals: more.rivals.value,
    isSampled: texts.isSampled ?? false,
  });
}

/** The phrases of JSGF texts. */
function phrasesIn(texts: readonly string[] = []): Result<readonly Phrases[], 'bad-grammar'> {
  const all: Phrases[] = [];
  for (const text of texts) {
    const grammar = parseJsgf(text);
    if (!grammar.ok) return grammar;
    all.push(grammar.value);
  }
  return ok(all);
}
