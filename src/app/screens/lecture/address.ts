/** Where the room of a lecture is found by everybody else: in Workshop, from its start. */
import { shortCodeOf } from '../../state/shortCode.ts';
import { getApp } from '../../state/store.ts';

/** The open job with its bench, or the story. */
export function addressOf(): string {
  const { job, scenario } = getApp();
  const room = job
    ? `job=${job.id}&seed=${job.seed}&aid=${job.aid}`
    : `story=${encodeURIComponent(scenario?.id ?? '')}`;
  return `${location.origin}${location.pathname}#${room}`;
}

/** Name of the story or job and its seed: enough to open it in any copy of the program. */
export function shortCode(): string {
  const { job, scenario } = getApp();
  return job ? shortCodeOf(job.id, job.seed) : shortCodeOf(scenario?.id ?? '', scenario?.seed ?? '');
}

const HERE_ALONE = /^(localhost|127\.|\[::1\]$|$)/;

/** Whether another machine could reach this page: not one opened as a file or served to this machine alone. */
export function takesHome({ protocol, hostname }: Pick<Location, 'protocol' | 'hostname'>): boolean {
  return /^https?:$/.test(protocol) && !HERE_ALONE.test(hostname);
}
