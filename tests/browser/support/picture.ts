/** What is seen on the stage, compared by its pixels. */
import { expect, type Page } from '@playwright/test';

/** The drawn room or plan as a PNG, base64: whichever is shown. */
export async function stagePicture(page: Page): Promise<string> {
  const shown = page.getByRole('img', { name: /^(Room|Plan) View/ }).filter({ visible: true });
  return (await shown.first().screenshot()).toString('base64');
}

interface Compared {
  /** Different colours in each, told apart by 16 steps a channel: a blank picture has one. */
  tones: [number, number];
  /** Pixels of which a channel differs by more than 8 of 255, as a share of all. */
  changedShare: number;
}

function compared(page: Page, before: string, after: string): Promise<Compared> {
  return page.evaluate(
    async (shots) => {
      const pixels = await Promise.all(
        shots.map(async (shot) => {
          const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${shot}`)).blob());
          const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!;
          context.drawImage(image, 0, 0);
          return context.getImageData(0, 0, image.width, image.height).data;
        }),
      );
      const [a, b] = pixels as [Uint8ClampedArray, Uint8ClampedArray];
      const tonesOf = (data: Uint8ClampedArray): number => {
        const tones = new Set<number>();
        for (let k = 0; k < data.length; k += 4) {
          tones.add(((data[k]! >> 4) << 8) | ((data[k + 1]! >> 4) << 4) | (data[k + 2]! >> 4));
        }
        return tones.size;
      };
      let changed = 0;
      for (let k = 0; k < a.length; k += 4) {
        if ([0, 1, 2].some((c) => Math.abs(a[k + c]! - b[k + c]!) > 8)) changed++;
      }
      return { tones: [tonesOf(a), tonesOf(b)] as [number, number], changedShare: (changed * 4) / a.length };
    },
    [before, after],
  );
}

/** Both pictures show something, and at least `share` of their pixels differ. */
export async function expectChanged(page: Page, before: string, after: string, share: number): Promise<void> {
  const { tones, changedShare } = await compared(page, before, after);
  expect(Math.min(...tones)).toBeGreaterThan(12);
  expect(changedShare).toBeGreaterThan(share);
}
