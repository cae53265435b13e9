/** Any ABNF grammar of the file system as the ear listens for it: its phrases and their meanings. */
import { readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { Matcher, entryRules, linkGrammar, parseAbnf } from '@stowcall/grammar';
import { normalised } from '../../../src/voice/phrases/phrase-for';
import type { ListenFor, Phrases } from '@stowcall/web-speech/core';
import { listenFor, phraseRule, phrasesOf, riskOf } from '@stowcall/web-speech/core';
import { decodeGrammar, readerOf } from '../../../src/tools/commands/grammar-files';

export interface AnyGrammar {
  /** Its phrases; of low risk are those of the rules that its meta data declares to be. */
  readonly listened: ListenFor;
  /** The meaning of these words as JSON; null where the grammar does not accept them. */
  meaningOf(words: string): string | null;
}

/** Reads the grammar and what it refers to in its folder. Throws a sentence with file, line and column. */
export function readAnyGrammar(file: string, rule: string | null): AnyGrammar {
  const text = decodeGrammar(readFileSync(file));
  if (!text.ok) throw new Error(`${file}: ${text.detail}`);
  return anyGrammarOf({ name: basename(file), text: text.value, folder: dirname(file), rule });
}

export interface GrammarText {
  /** For messages. */
  readonly name: string;
  readonly text: string;
  /** Where the grammars lie that it refers to. */
  readonly folder: string;
  /** The rule to listen for; null: the root, or all public ones. */
  readonly rule: string | null;
}

/** The same for a text. */
export function anyGrammarOf({ name, text, folder, rule }: GrammarText): AnyGrammar {
  const parsed = parseAbnf(name, text);
  if (!parsed.ok) throw new Error(parsed.detail);
  const linked = linkGrammar(parsed.value, readerOf(folder));
  if (!linked.ok) throw new Error(linked.detail);
  const active = rule === null ? entryRules(parsed.value) : [rule];
  const phrases = (rules: readonly string[]): readonly Phrases[] => {
    if (rules.length === 0) return [];
    const named = rules.map((one) => phraseRule({ file: parsed.value.file, name: one }));
    const made = phrasesOf(linked.value, named);
    if (!made.ok) throw new Error(`${name}: ${made.detail}`);
    return [made.value];
  };
  const low = active.filter((one) => riskOf(parsed.value, one) === 'low');
  const listened = listenFor({ wanted: phrases(active), lowRisk: phrases(low) });
  if (!listened.ok) throw new Error(`${name}: ${listened.detail}`);
  return {
    listened: listened.value,
    meaningOf: (words) => {
      const said = normalised(words);
      const matcher = new Matcher(linked.value, said === '' ? [] : said.split(' '));
      const readings = active.flatMap((one) => matcher.match(one)?.readings ?? []);
      const meanings = readings.map(({ meaning }) => JSON.stringify(meaning.ok ? meaning.value : said));
      return meanings[0] ?? null;
    },
  };
}
