/** The wall button of an output. */
import type { OutputId } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { buttonName } from '../../report/text/names.ts';
import { buttonOf, press } from '../state/acts.ts';
import ui from './ui.module.css';

/** `quiet`: a word with a line under it, where a box would crowd the state. */
export function PressButton({ output, quiet = false }: { output: OutputId; quiet?: boolean }) {
  const button = buttonOf[output];
  const name = en.outputs.press(buttonName[button]);
  return (
    <button
      type="button"
      className={quiet ? ui.link : ui.plain}
      aria-label={name}
      title={name}
      onClick={() => press(button)}
    >
      <span>{en.outputs.pressShort}</span>
    </button>
  );
}
