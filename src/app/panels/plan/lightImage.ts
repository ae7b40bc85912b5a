/** The Light Map of the floor and desk tops as pictures: the engine's own lux on its own elements, in false colour. */
import type { Frame } from '../../../engine/frame.ts';
import type { FieldFace, LightField } from '../../../engine/light/types.ts';
import { logScale } from '../logScale.ts';

/** Colour stops of the Light Map on a log scale of 50-2 000 lx, lightness steadily rising. */
export const LIGHT_STOPS: readonly [number, number, number][] = [
  [0x14, 0x1b, 0x4d],
  [0x2a, 0x36, 0x73],
  [0x4a, 0x4f, 0x82],
  [0x6b, 0x6a, 0x86],
  [0x8d, 0x86, 0x80],
  [0xb5, 0xa6, 0x71],
  [0xdc, 0xc8, 0x57],
  [0xff, 0xf3, 0xa0],
];
export const LIGHT_FROM_LX = 50;
export const LIGHT_TO_LX = 2000;

const barShare = logScale([LIGHT_FROM_LX, LIGHT_TO_LX], [0, 1]);

/** Place of a lux value on the colour bar, 0-1. */
export function lightShare(lx: number): number {
  return barShare(lx);
}

function colourOf(lx: number): [number, number, number] {
  const at = lightShare(lx) * (LIGHT_STOPS.length - 1);
  const i = Math.min(LIGHT_STOPS.length - 2, Math.floor(at));
  const a = LIGHT_STOPS[i]!;
  const b = LIGHT_STOPS[i + 1]!;
  const t = at - i;
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
}

/** Lux of one element: the sources mixed with the levels of the moment. */
function elementLx(field: LightField, frame: Frame, cell: number): number {
  return (
    (field.daylightLx[cell] ?? 0) +
    (field.innerRowLx[cell] ?? 0) * frame.lamps.inner +
    (field.windowRowLx[cell] ?? 0) * frame.lamps.window +
    (field.doorLx[cell] ?? 0)
  );
}

export interface FacePicture {
  id: string;
  fromM: [number, number];
  toM: [number, number];
  href: string;
}

/** Faces that look up: the floor and tops of furniture. */
function looksUp(face: FieldFace): boolean {
  return face.kind === 'floor' || (face.kind === 'furniture' && face.normal[2] > 0.9);
}

/** Pixels along the side of a cell: the sun's patch has a sharper edge than cells have. */
const FINE = 2;

/** `sunLx`: direct sun on a level place, which is not in the field. */
export function lightPictures(
  field: LightField,
  frame: Frame,
  sunLx: (x: number, y: number, z: number) => number,
): FacePicture[] {
  return field.faces.filter(looksUp).map((face) => {
    const canvas = document.createElement('canvas');
    const context = canvas.getContext('2d');
    const far = [face.originM[0] + face.uM[0] + face.vM[0], face.originM[1] + face.uM[1] + face.vM[1]] as const;
    const fromM: [number, number] = [Math.min(face.originM[0], far[0]), Math.min(face.originM[1], far[1])];
    const toM: [number, number] = [Math.max(face.originM[0], far[0]), Math.max(face.originM[1], far[1])];
    if (!context) return { id: face.id, fromM, toM, href: '' };
    // u may run along x or y, forwards or back: each pixel asks which element lies under it.
    const alongX = Math.abs(face.uM[0]) > Math.abs(face.uM[1]);
    canvas.width = FINE * (alongX ? face.nu : face.nv);
    canvas.height = FINE * (alongX ? face.nv : face.nu);
    const image = context.createImageData(canvas.width, canvas.height);
    for (let row = 0; row < canvas.height; row++) {
      for (let column = 0; column < canvas.width; column++) {
        const shareX = (column + 0.5) / canvas.width;
        const shareY = 1 - (row + 0.5) / canvas.height;
        const alongU = alongX ? (face.uM[0] > 0 ? shareX : 1 - shareX) : face.uM[1] > 0 ? shareY : 1 - shareY;
        const alongV = alongX ? (face.vM[1] > 0 ? shareY : 1 - shareY) : face.vM[0] > 0 ? shareX : 1 - shareX;
        const i = Math.min(face.nu - 1, Math.floor(alongU * face.nu));
        const j = Math.min(face.nv - 1, Math.floor(alongV * face.nv));
        const x = fromM[0] + (toM[0] - fromM[0]) * shareX;
        const y = fromM[1] + (toM[1] - fromM[1]) * shareY;
        const lx = elementLx(field, frame, face.offset + j * face.nu + i) + sunLx(x, y, face.originM[2]);
        const [r, g, b] = colourOf(lx);
        const at = (row * canvas.width + column) * 4;
        image.data.set([r, g, b, 255], at);
      }
    }
    context.putImageData(image, 0, 0);
    return { id: face.id, fromM, toM, href: canvas.toDataURL() };
  });
}
