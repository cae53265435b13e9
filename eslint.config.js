import js from '@eslint/js';
import jsxA11y from 'eslint-plugin-jsx-a11y';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';

const NO_DEFAULT_EXPORT = {
  selector: 'ExportDefaultDeclaration',
  message: 'No default exports: one name for one thing everywhere.',
};

export default tseslint.config(
  { ignores: ['dist', 'node_modules', 'coverage', '.cache', '.stowcall', 'test-results', 'playwright-report'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    files: ['**/*.{ts,tsx}'],
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      'max-lines': ['error', { max: 300, skipBlankLines: true, skipComments: true }],
      'max-lines-per-function': ['error', { max: 80, skipBlankLines: true, skipComments: true }],
      'max-params': ['error', 3],
      eqeqeq: 'error',
    },
  },
  {
    files: ['src/**/*.{ts,tsx}'],
    rules: {
      'no-restricted-syntax': ['error', NO_DEFAULT_EXPORT],
    },
  },
  {
    // Time and chance come in on events (invariant 10).
    files: [
      'src/{domain,packing,loft}/**/*.ts',
      'src/speech/grammar/**/*.ts',
      'src/voice/phrases/**/*.ts',
      'src/scan/symbology/**/*.ts',
      'src/record/{chain,verify}/**/*.ts',
    ],
    rules: {
      'no-restricted-syntax': [
        'error',
        NO_DEFAULT_EXPORT,
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: 'The core reads no clock.' },
        { selector: "CallExpression[callee.name='Date']", message: 'The core reads no clock.' },
        { selector: "MemberExpression[property.name='timeOrigin']", message: 'The core reads no clock.' },
      ],
      'no-restricted-globals': [
        'error',
        'performance',
        'crypto',
        'window',
        'document',
        'globalThis',
        'self',
        'Temporal',
        'setTimeout',
        'setInterval',
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The core reads no clock.' },
        { object: 'Math', property: 'random', message: 'The core makes no chance.' },
      ],
    },
  },
  {
    files: ['**/*.tsx'],
    plugins: { 'react-hooks': reactHooks, 'jsx-a11y': jsxA11y },
    rules: { ...reactHooks.configs.recommended.rules, ...jsxA11y.flatConfigs.recommended.rules },
  },
  {
    files: ['tests/**'],
    rules: { 'max-lines-per-function': 'off', '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    files: ['**/*.{mjs,cjs}', '*.js'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        module: 'writable',
        URL: 'readonly',
        fetch: 'readonly',
        Buffer: 'readonly',
        setTimeout: 'readonly',
      },
    },
  },
);
