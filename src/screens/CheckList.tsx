/** Checks with their outcome: failed ones first, because they are what somebody must act on. */
import type { ReactElement } from 'react';
import type { CheckLine } from '../domain/fact';
import { PassMark, TagMark } from './Shapes';
import { Words } from './Words';

interface CheckListProps {
  readonly checks: readonly CheckLine[];
  readonly label: string;
  /** True where the outcome alone matters by now: passed checks then stand without their detail. */
  readonly brief?: boolean;
}

/** One line for each check: mark, word, what was checked, what was found. */
export function CheckList({ checks, label, brief = false }: CheckListProps): ReactElement {
  const failed = checks.filter((check) => !check.passed);
  const passed = checks.filter((check) => check.passed);
  return (
    <ul className={brief ? 'checks checks-brief' : 'checks'} aria-label={label}>
      {[...failed, ...passed].map((check, index) => (
        <li key={index} className={check.passed ? 'check check-passed' : 'check check-failed'}>
          {check.passed ? <PassMark /> : <TagMark />}
          <span>
            <strong>{check.label}</strong> <span className="check-word">{check.passed ? 'good' : 'not good'}</span>
            {check.detail === '' || (brief && check.passed) ? null : (
              <span className="check-detail">
                <Words text={check.detail} />
              </span>
            )}
          </span>
        </li>
      ))}
    </ul>
  );
}
