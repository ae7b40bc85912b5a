/** Words of an output as this page may tell them: at the stops of a worked example it is asked when something switches. */
import type { OutputView } from '../../engine/frame.ts';
import type { Tick } from '../../engine/types.ts';
import { type BadgeWords, badgeWords, outputWords } from '../../report/text/badges.ts';
import { getApp } from './store.ts';

export function wordsShown(view: OutputView, tick: Tick): BadgeWords {
  return getApp().job?.stage === 'example' ? badgeWords(view.badge, null) : outputWords(view, tick);
}
