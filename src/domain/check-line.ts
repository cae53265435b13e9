/** One line of a check: what was looked at, whether it passed, and why, in words for the rigger. */

export interface CheckLine {
  readonly label: string;
  readonly passed: boolean;
  readonly detail: string;
}
