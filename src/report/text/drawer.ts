/** Words of the Fault Drawer. */
export const drawerWords = {
  head: 'Fault Drawer',
  intro:
    'Pick a cause; the room is opened with it as the client found it. Hidden, nothing on the page says which it is. In some rooms nothing is broken.',
  list: 'Causes',
  hidden: 'Keep it hidden from the class',
  open: 'Put it into the room',
  healthy: 'nothing broken',
  job: (job: number, room: string): string => `Job ${job}, ${room}`,
  line: (n: number): string => `Hidden: ${n}`,
  shown: (title: string): string => `In this room: ${title}`,
  practice: 'Practice on a screen makes nobody competent; local codes and licensed practice decide.',
} as const;
