/** Texts of a procedure are read aloud: none of them may be taken for a command where the voice is heard late. */
import type { Procedure, Stage } from '../domain/procedure';
import type { Problem } from './refusal';

/** The words of a text that are a command as the grammars have it; null for none. Given from outside: no grammar is known here. */
export type CommandIn = (text: string) => string | null;

interface Spoken {
  readonly text: string;
  readonly path: readonly PropertyKey[];
}

function list(path: readonly PropertyKey[], texts: readonly string[]): readonly Spoken[] {
  return texts.map((text, index) => ({ text, path: [...path, index] }));
}

function stageTexts(stage: Stage): readonly Spoken[] {
  const at = ['stages', stage.number - 1];
  const { hold } = stage;
  return [
    { text: stage.title, path: [...at, 'title'] },
    ...list([...at, 'steps'], stage.steps),
    { text: stage.caution ?? '', path: [...at, 'caution'] },
    ...(stage.kind === 'measure' ? [{ text: stage.what, path: [...at, 'what'] }] : []),
    ...(hold === null ? [] : [{ text: hold.title, path: [...at, 'hold', 'title'] }]),
    ...list([...at, 'hold', 'inspect'], hold?.inspect ?? []),
    ...(hold?.findings ?? []).map(({ text }, index) => ({
      text,
      path: [...at, 'hold', 'findings', index, 'text'],
    })),
  ];
}

/** Every text that is read aloud and is, or ends in, something that can be said to the kiosk. */
export function checkSpoken(procedure: Procedure, commandIn: CommandIn): readonly Problem[] {
  const texts: readonly Spoken[] = [
    { text: procedure.title, path: ['title'] },
    ...procedure.tools.map(({ name }, index) => ({ text: name, path: ['tools', index, 'name'] })),
    ...procedure.temporaryItems.map(({ name }, index) => ({ text: name, path: ['temporaryItems', index, 'name'] })),
    ...procedure.stages.flatMap(stageTexts),
  ];
  return texts.flatMap(({ text, path }): readonly Problem[] => {
    const found = commandIn(text);
    if (found === null) return [];
    const reason = `"${found}" can be said to the kiosk, and this text is read aloud: heard late it would be a command. Let the words stand inside a longer sentence.`;
    return [{ path, fault: 'is-command', reason }];
  });
}
