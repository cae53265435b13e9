/** The arrows of DEVELOPERS.md, held by machine. */
const CALIBRATION = '^src/speech/web-speech/calibration/';
/** Programs for Node. */
const NOT_THE_PAGE = `^src/tools/|${CALIBRATION}`;
const PACKAGE = ['npm', 'npm-dev', 'npm-optional', 'npm-peer', 'npm-no-pkg', 'npm-unknown', 'core'];

/** @param {string} name @param {string} from @param {string} allowed */
const only = (name, from, allowed) => ({
  name,
  severity: 'error',
  from: { path: from },
  to: { path: '^src/', pathNot: `(${from}|${allowed})` },
});

/** Packages that are known in one place alone. @param {string} name @param {string} room @param {readonly string[]} packages */
const home = (name, room, packages) => ({
  name,
  severity: 'error',
  from: { path: '^src/', pathNot: room },
  to: { path: `^node_modules/(${packages.join('|')})/` },
});

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'not-unresolvable',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^virtual:|[?](url|worker|raw)' },
    },
    only('domain-imports-nothing', '^src/domain/', '^$'),
    only('packing-imports-domain', '^src/packing/', '^src/domain/'),
    only('loft-imports-domain', '^src/loft/', '^src/domain/'),
    only('grammar-keeps-to-itself', '^src/speech/grammar/', '^$'),
    only('web-speech-sees-grammar', '^src/speech/web-speech/', '^src/speech/grammar/'),
    only('phrases-see-domain-and-speech', '^src/voice/phrases/', '^src/(domain|speech)/|^src/voice/hearing[.]ts$'),
    only('symbology-imports-domain', '^src/scan/symbology/', '^src/domain/'),
    only('chain-imports-domain', '^src/record/chain/', '^src/domain/'),
    only('voice-sees-domain-and-speech', '^src/voice/', '^src/(domain|speech)/'),
    only(
      'scan-keeps-to-itself',
      '^src/scan/',
      '^src/(domain|speech/grammar)/|^src/speech/web-speech/worker/calls[.]ts$',
    ),
    only('record-keeps-to-itself', '^src/record/', '^src/domain/'),
    only('screens-see-domain-and-packing', '^src/screens/', '^src/(domain|packing)/'),
    {
      name: 'kiosk-sees-the-contract',
      severity: 'error',
      from: { path: '^src/kiosk/', pathNot: '^src/kiosk/compose[.]tsx$' },
      to: { path: '^src/screens/', pathNot: '^src/screens/contract/' },
    },
    {
      name: 'compose-sees-the-root-component',
      severity: 'error',
      from: { path: '^src/kiosk/compose[.]tsx$' },
      to: { path: '^src/screens/', pathNot: '^src/screens/(contract/|App[.]tsx?$)' },
    },
    {
      name: 'screens-see-the-pack-through-the-contract',
      severity: 'error',
      from: { path: '^src/screens/', pathNot: '^src/screens/contract/' },
      to: { path: '^src/packing/', pathNot: '^src/packing/words/words[.]ts$' },
    },
    // Whoever recomputes must not repeat the writer's mistakes: types of the nouns, and no code but its own.
    {
      name: 'verifier-never-imports-the-writer',
      severity: 'error',
      from: { path: '^src/record/verify/' },
      to: { path: '^src/', pathNot: '^src/(record/verify|domain)/' },
    },
    {
      name: 'verifier-takes-only-types-of-the-nouns',
      severity: 'error',
      from: { path: '^src/record/verify/' },
      to: { path: '^src/domain/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'writer-never-imports-the-verifier',
      severity: 'error',
      from: { path: '^src/record/(chain|store|seal)/' },
      to: { path: '^src/record/verify/' },
    },
    {
      name: 'verifier-has-no-packages',
      severity: 'error',
      from: { path: '^src/record/verify/' },
      to: { dependencyTypes: PACKAGE },
    },
    {
      name: 'domain-has-no-packages',
      severity: 'error',
      from: { path: '^src/domain/' },
      to: { dependencyTypes: PACKAGE },
    },
    // What runs in Node alone, and what is there for building and testing alone, must never be asked for in the page.
    {
      name: 'page-has-no-node',
      severity: 'error',
      from: { path: '^src/', pathNot: NOT_THE_PAGE },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'page-has-no-packages-for-development',
      severity: 'error',
      from: { path: '^src/', pathNot: NOT_THE_PAGE },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'page-imports-no-tools',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/tools/' },
      to: { path: '^src/tools/' },
    },
    {
      name: 'page-imports-no-calibration',
      severity: 'error',
      from: { path: '^src/', pathNot: NOT_THE_PAGE },
      to: { path: CALIBRATION },
    },
    {
      name: 'nobody-imports-tests',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^tests/' },
    },
    {
      name: 'nobody-imports-the-root',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(kiosk/|tools/|main.tsx)' },
      to: { path: '^src/kiosk/' },
    },
    {
      name: 'tools-see-no-screens-and-no-devices',
      severity: 'error',
      from: { path: '^src/tools/' },
      to: { path: '^src/(screens|scan/(camera|wedge)|voice/(?!phrases/)|speech/web-speech/(?!calibration/))' },
    },
    // Each of these packages has one home, so that another one could take its place there.
    home('react-has-one-home', '^src/(screens/|kiosk/|main[.]tsx)', ['react', 'react-dom']),
    home('xstate-has-one-home', '^src/(packing|kiosk)/', ['xstate']),
    home('yaml-has-one-home', '^src/loft/', ['yaml']),
    home('idb-has-one-home', '^src/(record/(store|seal)|voice/sample-store|kiosk)/', ['idb']),
    home('zxing-has-one-home', '^src/scan/camera/', ['@zxing/[^/]+', 'zxing-wasm']),
    home('speech-engines-have-one-home', '^src/speech/web-speech/', [
      'soundswallower',
      '@echogarden/[^/]+',
      '@bjorn3/[^/]+',
    ]),
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'browser', 'default', 'types'] },
  },
};
