/** What has to be there before the start screen means anything: the loft, its files, and the journal. */
import type { Loft } from '../../domain/loft';
import { ok, refused, type Result } from '../../domain/result';
import { loadLoft } from '../../loft/load-loft';
import type { CommandIn } from '../../loft/spoken-rule';
import type { ProcedureChoice, RefusedFile } from '../../screens/contract/start-view';
import { isDemonstration } from '../../packing/words/notices';
import { fetchLoftFiles, type LoftFile } from './loft-files';

export interface LoadedLoft {
  readonly loft: Loft;
  readonly refusedFiles: readonly RefusedFile[];
}

function checked(files: readonly LoftFile[], commandIn: CommandIn): Result<LoadedLoft, 'no-loft'> {
  const loaded = loadLoft(files, commandIn);
  if (loaded.loft === null) {
    const first = loaded.refused.map((file) => `${file.file}, line ${file.line ?? '?'}: ${file.reason}`).join(' ');
    return refused('no-loft', `The loft's files are not in order. ${first}`);
  }
  return ok({ loft: loaded.loft, refusedFiles: loaded.refused });
}

/**
 * Fetches and checks the loft's files, as often as it is called; a broken procedure is set aside, a broken loft file is
 * a refusal. As long as no file changes, the value stays the very same object.
 */
export function loftReader(base: string, commandIn: CommandIn): () => Promise<Result<LoadedLoft, 'no-loft'>> {
  let last: { readonly text: string; readonly result: Result<LoadedLoft, 'no-loft'> } | null = null;
  return async () => {
    const files = await fetchLoftFiles(base);
    if (!files.ok) return refused('no-loft', files.detail);
    const text = JSON.stringify(files.value);
    if (last?.text !== text) last = { text, result: checked(files.value, commandIn) };
    return last.result;
  };
}

/** The procedures a trainee can choose to hear. */
export function procedureChoices(loft: Loft): readonly ProcedureChoice[] {
  return loft.procedures.map((procedure) => ({
    id: procedure.id,
    title: procedure.title,
    revision: procedure.revision,
    stages: procedure.stages.length,
    holds: procedure.stages.filter((stage) => stage.hold !== null).length,
    demonstration: isDemonstration(procedure),
  }));
}
