/** The lines that are read aloud at an enrolment: the fixed commands of a pack, in the forms that most need a voice. */
import { COMMAND_NAMES, type CommandName } from '../../domain/command';
import type { PhraseBook } from '../../voice/phrases/phrase-book';

export interface PhraseToRead {
  readonly command: CommandName;
  /** As the phrase book has them. */
  readonly words: string;
}

/** These hold a number, of which there are too many to read. */
const WITH_NUMBERS: readonly CommandName[] = ['count', 'measured', 'finding', 'goToStage', 'reopenStage'];
/** Only said in a rehearsal, where nobody has scanned a badge and so no voice is known. */
const REHEARSALS: readonly CommandName[] = ['next', 'slower', 'faster', 'finish'];
/** An inspector's alone; nobody else's voice may make these surer. */
const VERDICTS: readonly CommandName[] = ['releaseHold', 'returnHold'];

/** More forms than any command has. */
const FORMS_MAX = 20;

/**
 * For each command its first form of two words or more, and every form of one word that could do harm where it was not
 * said: those are mistaken most easily. About a minute of reading.
 */
export function phrasesToRead(book: PhraseBook): readonly PhraseToRead[] {
  const commands = COMMAND_NAMES.filter((name) => !WITH_NUMBERS.includes(name) && !REHEARSALS.includes(name));
  return commands.flatMap((command) => {
    const forms = book.allPhrases({ commands: [command], nouns: [] }, FORMS_MAX).map(({ phrase }) => phrase);
    const long = forms.find((words) => words.includes(' '));
    const short = book.riskOf(command) === 'high' ? forms.filter((words) => !words.includes(' ')) : [];
    return [...(long === undefined ? [] : [long]), ...short].map((words) => ({ command, words }));
  });
}

/** Whether these words give a verdict on a hold. */
export function isVerdict(phrases: readonly PhraseToRead[], words: string): boolean {
  return phrases.some((phrase) => phrase.words === words && VERDICTS.includes(phrase.command));
}

/** The lines for somebody who inspects, or who does not. */
export function phrasesFor(phrases: readonly PhraseToRead[], isInspector: boolean): readonly PhraseToRead[] {
  return isInspector ? phrases : phrases.filter(({ command }) => !VERDICTS.includes(command));
}
