/**
 * Mutation testing of src/core: small faults are put into the formulas one by one, and a test should fail for each.
 * Run as `npm run mutate -- burn oxygen`; test/mutation/run.mjs says how.
 */
import { folder } from './test/mutation/tests.mjs';

export default {
  testRunner: process.env.MUTATE_RUNNER ?? 'quick',
  vitest: { configFile: 'test/mutation/vitest.config.mjs' },
  plugins: ['@stryker-mutator/vitest-runner', './test/mutation/quick-runner.mjs'],
  coverageAnalysis: 'perTest',
  mutate: [`src/core/${folder}/${process.env.MUTATE_FILE ?? '**/*'}.ts`],
  mutator: {
    // Texts, and the shape of records, which the compiler looks after: no formula is in them.
    excludedMutations: ['StringLiteral', 'ObjectLiteral', 'ArrayDeclaration', 'OptionalChaining', 'Regex'],
  },
  // A fault in a constant, worked out while its file loads, wants all the tests of the folder.
  ignoreStatic: !process.env.MUTATE_STATIC,
  concurrency: 1,
  timeoutMS: 30_000,
  timeoutFactor: 4,
  tempDirName: '.cache/mutation/sandbox',
  reporters: ['progress-append-only', 'clear-text', 'json'],
  clearTextReporter: {
    allowColor: false,
    allowEmojis: false,
    logTests: false,
    reportTests: false,
    reportMutants: false,
    skipFull: true,
  },
  jsonReporter: { fileName: `.cache/mutation/${folder}.json` },
  // All that the tests of core need; the rest of the tree may change while this runs.
  ignorePatterns: [
    '**',
    '!package.json',
    '!tsconfig.json',
    ...[
      'src/core',
      'src/catalogue',
      'src/sheet',
      'test/core',
      'test/catalogue',
      'test/published',
      'test/mutation',
      'test/fixtures',
    ].map((part) => `!${part}/**`),
  ],
  allowConsoleColors: false,
};
