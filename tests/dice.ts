/** Property tests try the same cases on every machine, so that a green run stays green; `FC_SEED=n npx vitest run` tries others. */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.FC_SEED ?? 20_261_201) });
