/** The wall button of an output. */
import type { OutputId } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { buttonName } from '../../report/text/names.ts';
import { buttonOf, press } from '../state/acts.ts';
import ui from './ui.module.css';

export function PressButton({ output }: { output: OutputId }) {
  const button = buttonOf[output];
  const name = en.outputs.press(buttonName[button]);
  return (
    <button type="button" className={ui.plain} aria-label={name} title={name} onClick={() => press(button)}>
      {en.outputs.pressShort}
    </button>
  );
}
