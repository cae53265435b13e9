/** The public interface: read a grammar, link it, match words against it, write it for a recogniser. */
export { ok, refused } from './result';
export type { Ok, Refused, Result } from './result';

export { parseAbnf } from './srgs/parse-abnf';
export { parseGrxml } from './srgs/parse-grxml';
export { readGrammar } from './srgs/read-grammar';
export { entryRules } from './srgs/srgs';
export type { Alternative, Expansion, Grammar, Header, Lexicon, Meta, Place, Rule, RuleReference } from './srgs/srgs';

export { linkGrammar } from './srgs/link';
export type { LinkedGrammar, LinkedRule, LinkReason, Node, Resolver } from './srgs/link';
export { minimalDepths } from './srgs/derivation-depth';
export { reachableRules, ruleIndex } from './srgs/reachable-rules';

export { Matcher } from './match/match';
export type { Distinction, Match, Reading } from './match/match';
export { generateSentences } from './match/generate-sentences';
export type { Meaning } from './sisr/parse-tag';

export { makeJsgf } from './jsgf/make-jsgf';
export type { Jsgf, JsgfOptions, JsgfReason, PhoneLoop } from './jsgf/make-jsgf';
export { parseJsgf } from './jsgf/parse-jsgf';
export type { JsgfGrammar, JsgfNode } from './jsgf/parse-jsgf';

export { PHONES } from './phones/phone';
export { parsePronunciations, pronunciationsByWord } from './phones/pronunciations';
export type { Phones, Pronunciation, Pronunciations } from './phones/pronunciations';
export { nearestPairs } from './phones/phrase-distance';
export type { Pair, Spoken } from './phones/phrase-distance';
