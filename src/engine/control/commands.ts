/** Step 2: changed settings and commands, in the order in which they came. Daylight is already taken. */
import { takeReadings } from './brightness.ts';
import { endWalkTest, startWalkTest } from './phases.ts';
import { offerChange, takePresentLight } from './settings.ts';
import type { ControlCommand, Work } from './types.ts';

export function obeyCommands(work: Work): void {
  const { commands } = work.input;
  if (commands.length === 0) return;
  for (const command of commands) obey(work, command);
  takeReadings(work);
}

function obey(work: Work, command: ControlCommand): void {
  switch (command.kind) {
    case 'setSettings':
      offerChange(work, command);
      break;
    case 'takePresentLight':
      takePresentLight(work, command.row);
      break;
    case 'turned':
      work.readings = command.readings;
      takeReadings(work);
      break;
    case 'walkTest':
      if (command.action === 'start') startWalkTest(work);
      else endWalkTest(work);
  }
}
