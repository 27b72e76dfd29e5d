/** A file that is dragged over the page and let go there. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Some browsers tell which file was dropped. */
interface Dropped {
  getAsFileSystemHandle?(): Promise<FileSystemHandle | null>;
}

/** take: opens the file; with its handle, saving goes back there. */
export class FileDrop implements ReactiveController {
  /** a file is held over the page */
  over = false;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly take: (file: File, handle: FileSystemFileHandle | undefined) => void,
  ) {
    host.addController(this);
  }
  hostConnected() {}

  private hold(over: boolean) {
    this.over = over;
    this.host.requestUpdate();
  }
  readonly dragOver = (e: DragEvent) => {
    e.preventDefault();
    if (!this.over) this.hold(true);
  };
  readonly dragLeave = () => this.hold(false);
  readonly drop = (e: DragEvent) => {
    e.preventDefault();
    this.hold(false);
    const [item] = e.dataTransfer?.items ?? [];
    const file = e.dataTransfer?.files[0];
    const handle = (item as Dropped | undefined)?.getAsFileSystemHandle?.().catch(() => null);
    if (file) void Promise.resolve(handle).then((h) => this.take(file, h instanceof FileSystemFileHandle ? h : undefined));
  };
}
