/** Runs one tag beside a rule that was matched before it. */
import { parseTag } from '../../../../src/speech/grammar/sisr/parse-tag';
import { meaningOf } from '../../../../src/speech/grammar/sisr/run-tag';
import type { Step } from '../../../../src/speech/grammar/sisr/run-tag';

export const FORMAT = 'semantics/1.0';
export const tag = (content: string): Step => ({ kind: 'tag', content, action: parseTag(FORMAT, content) });
const rule = (name: string, value: string | number, text: string): Step => ({
  kind: 'rule',
  name,
  meaning: { ok: true, value },
  text,
});

/** What a tag makes of a rule `b` that meant 4 and was said as "four"; a fault gives its sentence. */
export function run(content: string): unknown {
  const meant = meaningOf([rule('b', 4, 'four'), tag(content)], 'say four');
  return meant.ok ? meant.value : meant.detail;
}
