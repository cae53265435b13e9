/** Plain sentences on the terminal, and the one way in which these programs give up. */

/** A reason to stop that the person at the terminal can act on; it is printed without a stack. */
export class Stop extends Error {}

/** @param {string} sentence */
export function say(sentence) {
  console.log(sentence);
}

/**
 * Runs a program's main part. A `Stop` is printed as it is, anything else with its stack; both end with code 1.
 * @param {() => Promise<void>} main
 */
export async function run(main) {
  try {
    await main();
  } catch (error) {
    console.error(error instanceof Stop ? error.message : error);
    process.exitCode = 1;
  }
}
