import { describe, expect, it } from 'vitest';
import { filesBelow, textOf, withoutComments } from './files.ts';

const engine = filesBelow('src/engine', /\.ts$/);

/** Host functions whose result may differ between engines, or between two runs. */
const BANNED =
  /Math\.(random|sin|cos|tan|asin|acos|atan2?|exp|expm1|log|log10|log2|log1p|pow|sinh|cosh|tanh|cbrt|hypot)\b|Date\.now|new Date\(|performance\.|setTimeout|setInterval|\bconsole\.|Intl\.|toLocale/;

describe('the engine', () => {
  for (const path of engine) {
    it(`${path} uses no clock, no dice and no host maths`, () => {
      const found = withoutComments(textOf(path)).match(BANNED);
      expect(found?.[0]).toBeUndefined();
    });
  }

  it('gives every exported number a unit or meaning, and an origin', () => {
    const missing = engine.flatMap((path) => {
      const code = textOf(path);
      const constants = [
        ...code.matchAll(/(\/\*\*(?:(?!\*\/)[\s\S])*\*\/\s*)?export const ([A-Z][A-Z0-9_]*)(?:: number)? = -?[\d.]/g),
      ];
      return constants.filter((c) => !/Source:|Assumed:/.test(c[1] ?? '')).map((c) => `${path}: ${c[2]}`);
    });
    expect(missing).toEqual([]);
  });
});

describe('files', () => {
  /** Tables of data and the catalogue of words may be long. */
  const EXEMPT = /report\/text\//;

  it('stay within 300 lines', () => {
    const long = filesBelow('src', /\.(ts|tsx|mjs)$/)
      .filter((path) => !EXEMPT.test(path))
      .map((path) => ({ path, lines: textOf(path).split('\n').length }))
      .filter(({ lines }) => lines > 300);
    expect(long).toEqual([]);
  });

  it('carry no unfinished marks', () => {
    const marked = [...filesBelow('src', /\.(ts|tsx|mjs|css|html)$/), ...filesBelow('scenarios', /\.json$/)].filter(
      (path) => /\b(TODO|FIXME|XXX|lorem|not implemented)\b/.test(textOf(path)),
    );
    expect(marked).toEqual([]);
  });
});
