import tseslint from 'typescript-eslint';

/** What each folder must not import; tests/architecture.test.ts holds the same by reading import lines. */
const forbid = (files, patterns, message) => ({
  files,
  rules: { '@typescript-eslint/no-restricted-imports': ['error', { patterns: [{ group: patterns, message }] }] },
});

export default tseslint.config(
  { ignores: ['dist/', 'node_modules/', 'src/language/generated/', '**/*.mjs', 'eslint.config.js', 'vitest.config.ts'] },
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.recommended],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      eqeqeq: 'error',
      'no-restricted-syntax': [
        'error',
        { selector: 'TSEnumDeclaration', message: 'Use a union of strings' },
        { selector: 'ExportDefaultDeclaration', message: 'Export by name' },
      ],
    },
  },
  {
    files: ['src/analysis/**/*.ts', 'src/language/**/*.ts'],
    rules: { 'max-lines-per-function': ['error', 60], 'max-params': ['error', 5] },
  },
  {
    files: ['src/analysis/**/*.ts'],
    rules: {
      'no-restricted-globals': ['error', 'Date', 'Intl', 'performance', 'process', 'console', 'setTimeout'],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'The analysis is deterministic' },
        { property: 'toLocaleString', message: 'The analysis knows no locale' },
        { property: 'localeCompare', message: 'The analysis knows no locale' },
      ],
    },
  },
  forbid(
    ['src/analysis/**/*.ts'],
    ['langium', 'langium/*', 'vscode', 'vscode-*', 'vscode-*/**', 'node:*', '**/language/**', '**/extension/**'],
    'The analysis knows no editor, no language and no system',
  ),
  forbid(['src/language/**/*.ts'], ['vscode', 'vscode-languageclient', 'vscode-languageclient/*', '**/extension/**'], 'The language knows no editor'),
  forbid(
    ['src/files/**/*.ts'],
    ['node:*', 'vscode', 'vscode-*', '**/analysis/**', '**/language/**', '**/extension/**'],
    'Writing files knows a file system only as it is handed in',
  ),
  forbid(['src/extension/**/*.ts'], ['langium', 'langium/*', '**/analysis/**', '**/language/!(protocol.js)'], 'The extension computes nothing'),
  {
    files: ['**/*.d.ts'],
    rules: { 'no-restricted-syntax': 'off' },
  },
);
