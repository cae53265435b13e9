/** One procedure file: text in, a checked procedure or every reason against it out. */
import type { Procedure } from '../domain/procedure';
import { buildProcedure, measureProblems } from './build-procedure';
import { checkShape } from './check-shape';
import { parseLocated, refuseFile } from './located-yaml';
import { checkProcedure } from './procedure-rules';
import { procedureSchema } from './procedure-schema';
import type { Parsed, RefusedLine } from './refusal';
import type { CommandIn } from './spoken-rule';
import { checkSpoken } from './spoken-rule';

/** The name of a file without folder and ending. */
export function stemOf(path: string): string {
  return path.replace(/^.*\//, '').replace(/\.ya?ml$/, '');
}

/**
 * Checks a procedure file. Its id must be the file's own name, so that a refused file is still known by its path and
 * an assembly that needs it can be told why. Refusals carry file, line and reason.
 */
export function parseProcedure(path: string, text: string, commandIn: CommandIn = () => null): Parsed<Procedure> {
  const located = parseLocated(path, text);
  if (!located.ok) return located;
  const shaped = checkShape(procedureSchema, located.value);
  if (!shaped.ok) return refuseFile(located.value, shaped.problems);
  const procedure = buildProcedure(shaped.value);
  if (procedure === null) return refuseFile(located.value, measureProblems(shaped.value));
  const problems = [...checkProcedure(procedure), ...checkSpoken(procedure, commandIn)];
  if (procedure.id !== stemOf(path)) {
    const reason = `The procedure is called "${procedure.id}", its file "${stemOf(path)}". Give both the same name.`;
    problems.push({ path: ['id'], fault: 'id-not-file-name', reason });
  }
  return problems.length > 0 ? refuseFile(located.value, problems) : { ok: true, value: procedure };
}

/** The same check for authors: only the findings; none when the procedure can be used. */
export function lintProcedure(path: string, text: string, commandIn?: CommandIn): readonly RefusedLine[] {
  const parsed = parseProcedure(path, text, commandIn);
  return parsed.ok ? [] : parsed.refused;
}
