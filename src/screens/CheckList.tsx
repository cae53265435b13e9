/** Checks with their outcome: failed ones first, because they are what somebody must act on. */
import type { ReactElement } from 'react';
import type { CheckLine } from '../domain/fact';
import { PassMark, TagMark } from './Shapes';

interface CheckListProps {
  readonly checks: readonly CheckLine[];
  readonly label: string;
}

/** One line for each check: mark, word, what was checked, what was found. */
export function CheckList({ checks, label }: CheckListProps): ReactElement {
  const failed = checks.filter((check) => !check.passed);
  const passed = checks.filter((check) => check.passed);
  return (
    <ul className="checks" aria-label={label}>
      {[...failed, ...passed].map((check, index) => (
        <li key={index} className={check.passed ? 'check check-passed' : 'check check-failed'}>
          {check.passed ? <PassMark /> : <TagMark />}
          <span>
            <strong>{check.label}</strong> <span className="check-word">{check.passed ? 'good' : 'not good'}</span>
            {check.detail === '' ? null : <span className="check-detail">{check.detail}</span>}
          </span>
        </li>
      ))}
    </ul>
  );
}
