/** Checks with their outcome: failed ones first, because they are what somebody must act on. */
import type { ReactElement } from 'react';
import type { CheckLine } from '../../domain/fact';
import { PassMark, TagMark } from './Shapes';
import { Words } from './Words';

interface CheckListProps {
  readonly checks: readonly CheckLine[];
  readonly label: string;
  /** True where only what failed is still to be acted on: the passed ones then stand in one line together. */
  readonly brief?: boolean;
}

function Check({ check }: { readonly check: CheckLine }): ReactElement {
  return (
    <li className={check.passed ? 'check check-passed' : 'check check-failed'}>
      {check.passed ? <PassMark /> : <TagMark />}
      <span>
        <strong>{check.label}</strong> <span className="check-word">{check.passed ? 'good' : 'not good'}</span>{' '}
        {check.detail === '' ? null : (
          <span className="check-detail">
            <Words text={check.detail} />
          </span>
        )}
      </span>
    </li>
  );
}

/** "22 checks good". */
function Tally({ count }: { readonly count: number }): ReactElement {
  return (
    <li className="check check-passed">
      <PassMark />
      <span>
        <strong>
          {count} {count === 1 ? 'check' : 'checks'}
        </strong>{' '}
        <span className="check-word">good</span>
      </span>
    </li>
  );
}

/** One line for each check: mark, word, what was checked, what was found. */
export function CheckList({ checks, label, brief = false }: CheckListProps): ReactElement {
  const failed = checks.filter((check) => !check.passed);
  const passed = checks.filter((check) => check.passed);
  return (
    <ul className="checks" aria-label={label}>
      {failed.map((check, index) => (
        <Check key={index} check={check} />
      ))}
      {brief && passed.length > 0 ? <Tally count={passed.length} /> : null}
      {brief ? null : passed.map((check, index) => <Check key={index} check={check} />)}
    </ul>
  );
}
