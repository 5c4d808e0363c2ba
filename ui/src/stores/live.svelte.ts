// The stream of events: which journal entry is the last, and whether the server can be reached.

export interface JobEvent {
  job: string;
  kind: string;
  state: string;
  progress: number;
}

class Live {
  /** Rises whenever something was written, by whomever. */
  turn = $state(0);
  /** Rises when sharing was switched. */
  sharing = $state(0);
  connected = $state(true);
  private source: EventSource | null = null;
  private readonly jobListeners = new Set<(event: JobEvent) => void>();
  private readonly backListeners = new Set<() => void>();

  open(): void {
    this.source?.close();
    const source = new EventSource('/api/events');
    source.addEventListener('open', () => this.isBack());
    source.addEventListener('error', () => this.isLost(source));
    source.addEventListener('journal', () => (this.turn += 1));
    source.addEventListener('sharing', () => (this.sharing += 1));
    source.addEventListener('job', (event: MessageEvent<string>) => this.tellJob(event.data));
    this.source = source;
  }

  /** Called with every event of a job until the returned function is called. */
  onJob(listener: (event: JobEvent) => void): () => void {
    this.jobListeners.add(listener);
    return () => this.jobListeners.delete(listener);
  }

  onBack(listener: () => void): () => void {
    this.backListeners.add(listener);
    return () => this.backListeners.delete(listener);
  }

  private tellJob(data: string): void {
    const event = JSON.parse(data) as JobEvent;
    this.jobListeners.forEach((listener) => listener(event));
  }

  private isBack(): void {
    const wasLost = !this.connected;
    this.connected = true;
    if (wasLost) this.turn += 1;
    this.backListeners.forEach((listener) => listener());
  }

  private isLost(source: EventSource): void {
    this.connected = false;
    // A browser gives up for good after some failures: begin anew.
    if (source.readyState === EventSource.CLOSED)
      setTimeout(() => source === this.source && this.open(), 3000);
  }
}

export const live = new Live();
