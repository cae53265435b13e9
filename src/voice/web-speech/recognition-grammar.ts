/** From phrases in JSGF to the grammar that the engine is given: the phrases, and beside them a loop of all phones. */

/** Phones of US English as the acoustic model names them (ARPAbet without stress). */
export const PHONES =
  'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');

const PHONE_PREFIX = 'phone_';
const TOP = 'utterance_or_other';
const LOOP = 'other_speech';

/** The dictionary word that stands for one phone. */
export function phoneWord(phone: string): string {
  return `${PHONE_PREFIX}${phone.toLowerCase()}`;
}

export function isPhoneWord(word: string): boolean {
  return word.startsWith(PHONE_PREFIX);
}

/** What the engine is given: a grammar of one public rule, and every word in it but those of the loop. */
export interface RecogniserGrammar {
  readonly jsgf: string;
  readonly words: readonly string[];
}

/**
 * Weights of the loop against 1 for the phrases. Below about 1e-38 the engine's single precision makes them zero and
 * the loop is gone, so such a weight is refused.
 */
export interface LoopWeights {
  /** Other speech alone. */
  readonly alone: number;
  /** Other speech after a phrase: "next" in "next week we are closed". */
  readonly after: number;
}

export const LOOP_WEIGHTS: LoopWeights = { alone: 1e-30, after: 1e-30 };
const WEIGHT_MIN = 1e-37;

/**
 * Joins the public rules of JSGF grammars (W3C Note 5 June 2000) and adds the loop, so that whatever is none of the phrases has a better path than the nearest of them. Anything heard
 * on a path that enters the loop is no command.
 */
export function withLoop(phrases: readonly string[], weights: LoopWeights = LOOP_WEIGHTS): RecogniserGrammar {
  if (weights.alone < WEIGHT_MIN || weights.after < WEIGHT_MIN) {
    throw new Error('Broken assumption: the loop weighs enough for single precision');
  }
  const parts = phrases.map((jsgf, index) => privately(jsgf, `g${index}_`));
  const command = `(${parts.flatMap(({ publicRules }) => publicRules).join(' | ')})`;
  const top = `${command} [/${weights.after}/ <${LOOP}>] | /${weights.alone}/ <${LOOP}>`;
  const lines = [
    '#JSGF V1.0;',
    'grammar kiosk;',
    `public <${TOP}> = ${top};`,
    `<${LOOP}> = (${PHONES.map(phoneWord).join(' | ')})+;`,
    ...parts.map(({ rules }) => rules),
  ];
  return { jsgf: lines.join('\n'), words: [...new Set(phrases.flatMap(wordsIn))].sort() };
}

/** The rules of a grammar under names of their own, none of them public. */
function privately(jsgf: string, prefix: string): { rules: string; publicRules: readonly string[] } {
  const body = jsgf.replace(/^\s*#JSGF[^;]*;/, '').replace(/\bgrammar\s+[^;]+;/, '');
  const rename = (name: string): string => (name === 'NULL' || name === 'VOID' ? `<${name}>` : `<${prefix}${name}>`);
  const publicRules = [...body.matchAll(/\bpublic\s*<([^<>]+)>\s*=/g)].map(([, name]) => rename(name ?? ''));
  const rules = body.replace(/\bpublic\s*</g, '<').replace(/<([^<>]+)>/g, (_, name: string) => rename(name));
  return { rules, publicRules };
}

/** Every word of a JSGF grammar: what is neither header, rule name, weight, tag nor operator. */
function wordsIn(jsgf: string): readonly string[] {
  const bare = jsgf
    .replace(/^\s*#JSGF[^;]*;/, '')
    .replace(/\bgrammar\s+[^;]+;/, '')
    .replace(/\{[^}]*\}/g, ' ')
    .replace(/\bpublic\s*(?=<)/g, ' ')
    .replace(/<[^<>]*>/g, ' ')
    .replace(/\/[\d.e+-]+\//g, ' ');
  return bare.split(/[\s=;|()[\]*+]+/).filter((word) => word !== '');
}
