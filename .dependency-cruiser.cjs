/** The arrows of DEVELOPERS.md, held by machine. */
const PURE = '^src/(domain|packing|loft|speech/grammar|voice/phrases|scan/symbology|record/chain)/';
/** @param {string} name @param {string} from @param {string} allowed */
const only = (name, from, allowed) => ({
  name,
  severity: 'error',
  from: { path: from },
  to: { path: '^src/', pathNot: `(${from}|${allowed})` },
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
    only('scan-keeps-to-itself', '^src/scan/', '^src/domain/'),
    only('record-keeps-to-itself', '^src/record/', '^src/domain/'),
    only('screens-see-domain-and-packing', '^src/screens/', '^src/(domain|packing)/'),
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
      name: 'domain-has-no-packages',
      severity: 'error',
      from: { path: '^src/domain/' },
      to: { dependencyTypes: ['npm', 'npm-dev', 'core'] },
    },
    {
      name: 'pure-has-no-node',
      severity: 'error',
      from: { path: PURE },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'nobody-imports-the-root',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(kiosk/|tools/|main.tsx)' },
      to: { path: '^src/(kiosk|tools)/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'browser', 'default', 'types'] },
  },
};
