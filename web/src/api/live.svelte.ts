/** What the program says about itself, asked every two seconds: state, whether it is still there, the running job. */
import { ApiFault, cancelJob, getJob, getState, startPlan } from './client';
import type { Fault, Job, State } from './types';

const SEEN_MS = 2000;
const HIDDEN_MS = 15000;
const AWAY_MS = 1000;
const JOB_MS = 300;

const finished = (job: Job): boolean => job.state !== 'waiting' && job.state !== 'running';
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

class Live {
  state = $state.raw<State | null>(null);
  /** No answer came: the program has stopped. */
  gone = $state(false);
  /** The program does not know this browser. */
  refused = $state(false);
  /** Grows when anything that is shown may have changed; views read it and fetch anew. */
  version = $state(0);
  /** The job that this page started or found running. */
  job = $state.raw<Job | null>(null);
  jobFault = $state.raw<Fault | null>(null);

  private timer: ReturnType<typeof setTimeout> | undefined;
  private following = false;

  async ask(): Promise<void> {
    try {
      const next = await getState();
      const before = this.state;
      this.gone = false;
      this.refused = false;
      if (JSON.stringify(before) !== JSON.stringify(next)) this.state = next;
      const changed =
        !before ||
        before.data_version !== next.data_version ||
        before.plan?.number !== next.plan?.number ||
        before.program_version !== next.program_version;
      if (changed) this.version += 1;
      if (next.job && !finished(next.job) && !this.following) void this.follow(next.job);
    } catch (fault) {
      if (fault instanceof ApiFault) {
        this.gone = false;
        this.refused = fault.status === 403;
      } else {
        this.gone = true;
      }
    }
  }

  start(): void {
    const again = async (): Promise<void> => {
      await this.ask();
      const wait = this.gone || this.refused ? AWAY_MS : document.hidden ? HIDDEN_MS : SEEN_MS;
      this.timer = setTimeout(() => void again(), wait);
    };
    document.addEventListener('visibilitychange', () => {
      if (document.hidden) return;
      clearTimeout(this.timer);
      void again();
    });
    this.timer = setTimeout(() => void again(), SEEN_MS);
  }

  async makePlan(): Promise<void> {
    const state = this.state;
    if (!state || this.following) return;
    this.jobFault = null;
    try {
      await this.follow(await startPlan(state.plan?.seed ?? '1', state.today));
    } catch (fault) {
      this.jobFault = fault instanceof ApiFault ? fault.fault : null;
    }
  }

  /** Polls a job to its end and returns it. */
  async follow(job: Job): Promise<Job> {
    this.following = true;
    this.jobFault = null;
    this.job = job;
    let now = job;
    try {
      while (!finished(now)) {
        await pause(JOB_MS);
        try {
          now = await getJob(job.id);
        } catch (fault) {
          if (fault instanceof ApiFault) throw fault; // the program was started anew and knows the job no more
          await pause(AWAY_MS);
          continue;
        }
        this.job = now;
      }
      if (now.state === 'failed') this.jobFault = now.error;
      return now;
    } finally {
      this.following = false;
      await this.ask();
      this.job = now.state === 'done' ? null : now;
      if (!finished(now)) this.job = null;
    }
  }

  async cancel(): Promise<void> {
    if (this.job) await cancelJob(this.job.id).catch(() => undefined);
  }
}

export const live = new Live();
