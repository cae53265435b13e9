/** The kiosk's whole spoken language: what may be said, what it means, and how each command is said. */
import { assert } from '../../domain/assert';
import { COMMAND_NAMES } from '../../domain/command';
import type { Command, CommandName } from '../../domain/command';
import { COUNT_NOUNS } from '../../domain/procedure';
import type { CountNoun } from '../../domain/procedure';
import { ok, refused } from '../../domain/result';
import type { Refused, Result } from '../../domain/result';
import { commandOf } from './command-of';
import {
  Matcher,
  generateSentences,
  linkGrammar,
  minimalDepths,
  parseAbnf,
  reachableRules,
  ruleIndex,
} from '@stowcall/grammar';
import type { LinkReason, LinkedGrammar } from '@stowcall/grammar';
import { slotPhrase, normalised } from './phrase-for';
import type { Rival } from './rivals';
import { rivalsIn } from './rivals';
import type { Risk } from '@stowcall/web-speech/core';
import { phraseRule, riskOf } from '@stowcall/web-speech/core';

/** What may be said now; the same shape as the ear's vocabulary. */
export interface PhraseVocabulary {
  readonly commands: readonly CommandName[];
  /** Nouns that may be counted; none means that `count` cannot be said. */
  readonly nouns: readonly CountNoun[];
}

export type Understood =
  | { readonly kind: 'command'; readonly command: Command; readonly rule: CommandName }
  | { readonly kind: 'none' }
  /** The words mean two things: the kiosk asks. */
  | { readonly kind: 'ambiguous'; readonly candidates: readonly Command[] };

export interface PhraseBook {
  /** The grammars, linked. */
  readonly grammar: LinkedGrammar;
  /** What a rule must not be better said as, where its grammar declares it; rules by `phraseRule`. */
  readonly rivals: ReadonlyMap<string, Rival>;
  /** The rules of the commands' grammar that can be said with exactly this vocabulary. */
  rulesFor(vocabulary: PhraseVocabulary): readonly string[];
  /** What the words mean within this vocabulary. Capitals, hyphens and marks do not matter. */
  understand(vocabulary: PhraseVocabulary, words: string): Understood;
  /** A sentence that is understood as this command. Figures must be sayable: whole numbers to 999, sixteenths. */
  phraseFor(command: Command): string;
  /** How much harm the command can do where it was not said, as the grammar declares it. */
  riskOf(command: CommandName): Risk;
  /** The first `limit` sentences of each command of the vocabulary. */
  allPhrases(vocabulary: PhraseVocabulary, limit: number): readonly { rule: CommandName; phrase: string }[];
}

export interface GrammarSource {
  /** File name as the grammars refer to it, such as "numbers.gram". */
  readonly file: string;
  readonly text: string;
}

export type PhraseBookReason = LinkReason | 'missing-command' | 'dead-rule' | 'bad-tag';

/** The file among the sources whose public rules are the commands. */
const COMMANDS_FILE = 'commands.gram';

/** Reads and checks the grammars. Whatever is wrong with one is found here, not while somebody packs. */
export function loadPhraseBook(sources: readonly GrammarSource[]): Result<PhraseBook, PhraseBookReason> {
  const texts = new Map(sources.map((source) => [source.file.replace(/^.*\//, ''), source.text]));
  const main = texts.get(COMMANDS_FILE);
  if (main === undefined) return refused('missing-command', `The file ${COMMANDS_FILE} is missing; add it.`);
  const parsed = parseAbnf(COMMANDS_FILE, main);
  if (!parsed.ok) return parsed;
  const linked = linkGrammar(parsed.value, (address) => texts.get(address) ?? null);
  if (!linked.ok) return linked;
  const rivals = rivalsIn(texts);
  return troubleIn(linked.value, rivals) ?? ok(new Book(linked.value, rivals));
}

function troubleIn(grammar: LinkedGrammar, rivals: ReadonlyMap<string, Rival>): Refused<PhraseBookReason> | null {
  for (const name of [...COMMAND_NAMES, ...COUNT_NOUNS.map(countRule)]) {
    if (ruleIndex(grammar, name) < 0) {
      return refused('missing-command', `${COMMANDS_FILE} has no rule $${name}; every command needs one.`);
    }
  }
  for (const node of grammar.nodes) {
    if (node.kind === 'tag' && node.action.kind !== 'script') {
      const why = node.action.kind === 'broken' ? node.action.detail : 'The tag format must be <semantics/1.0>.';
      return refused('bad-tag', `The tag {${node.content}} cannot be understood: ${why}`);
    }
  }
  return deadRule(grammar, new Set([...rivals.values()].map(({ rule }) => rule)));
}

/** A rule that no command and no rival reaches, or that can never be said, is a slip of the pen. */
function deadRule(grammar: LinkedGrammar, rivals: ReadonlySet<string>): Refused<'dead-rule'> | null {
  const depths = minimalDepths(grammar);
  const reached = reachableRules(grammar, COMMAND_NAMES);
  for (const [index, rule] of grammar.rules.entries()) {
    if (!reached.has(index) && !rivals.has(phraseRule(rule))) {
      return refused('dead-rule', `$${rule.name} in ${rule.file} is used by no command.`);
    }
    if (!Number.isFinite(depths[rule.node] ?? Number.POSITIVE_INFINITY)) {
      return refused('dead-rule', `$${rule.name} in ${rule.file} can never be said.`);
    }
  }
  return null;
}

/** The private rule that counts one noun: `countStows`. */
function countRule(noun: CountNoun): string {
  return `count${noun.charAt(0).toUpperCase()}${noun.slice(1)}`;
}

interface OpenRule {
  readonly rule: string;
  readonly command: CommandName;
}

/** The rules that a vocabulary opens, each with the command that it is a form of. */
function rulesOf(vocabulary: PhraseVocabulary): readonly OpenRule[] {
  return [...new Set(vocabulary.commands)].flatMap((command): OpenRule[] => {
    if (command !== 'count') return [{ rule: command, command }];
    return [...new Set(vocabulary.nouns)].map((noun) => ({ rule: countRule(noun), command }));
  });
}

class Book implements PhraseBook {
  constructor(
    readonly grammar: LinkedGrammar,
    readonly rivals: ReadonlyMap<string, Rival>,
  ) {}

  riskOf(command: CommandName): Risk {
    return riskOf(this.grammar.entry, command);
  }

  rulesFor(vocabulary: PhraseVocabulary): readonly string[] {
    return rulesOf(vocabulary).map(({ rule }) => rule);
  }

  understand(vocabulary: PhraseVocabulary, words: string): Understood {
    const said = normalised(words);
    const matcher = new Matcher(this.grammar, said === '' ? [] : said.split(' '));
    const found = new Map<string, Command>();
    let unsure = false;
    for (const { rule, command } of rulesOf(vocabulary)) {
      const match = matcher.match(rule);
      if (match === null) continue;
      if (match.overflown) unsure = true;
      for (const { meaning } of match.readings) {
        const read = meaning.ok ? commandOf(command, meaning.value) : meaning;
        if (read.ok) found.set(JSON.stringify(read.value), read.value);
        else unsure = true;
      }
    }
    const candidates = [...found.values()];
    const [only] = candidates;
    if (only === undefined) return unsure ? { kind: 'ambiguous', candidates } : { kind: 'none' };
    if (unsure || candidates.length > 1) return { kind: 'ambiguous', candidates };
    return { kind: 'command', command: only, rule: only.name };
  }

  phraseFor(command: Command): string {
    const phrase = slotPhrase(command) ?? generateSentences(this.grammar, command.name, 1)[0];
    assert(phrase !== undefined, 'every command can be said');
    const nouns = command.name === 'count' ? [command.noun] : [];
    const read = this.understand({ commands: [command.name], nouns }, phrase);
    const same = read.kind === 'command' && JSON.stringify(read.command) === JSON.stringify(normal(command));
    assert(same, `"${phrase}" is not understood as ${JSON.stringify(command)}`);
    return phrase;
  }

  allPhrases(vocabulary: PhraseVocabulary, limit: number): readonly { rule: CommandName; phrase: string }[] {
    return rulesOf(vocabulary).flatMap(({ rule, command }) =>
      generateSentences(this.grammar, rule, limit).map((phrase) => ({ rule: command, phrase })),
    );
  }
}

/** The same fields in the order in which `commandOf` writes them. */
function normal(command: Command): Command {
  switch (command.name) {
    case 'count':
      return { name: 'count', count: command.count, noun: command.noun };
    case 'measured':
      return { name: 'measured', value: command.value, unit: command.unit };
    case 'finding':
      return { name: 'finding', number: command.number };
    case 'goToStage':
    case 'reopenStage':
      return { name: command.name, stage: command.stage };
    default:
      return { name: command.name };
  }
}
