package tepidarium.thread;

import java.util.concurrent.ThreadFactory;

/** Makes daemon threads, which do not keep the process running. */
public final class DaemonThreads {
  private DaemonThreads() {}

  /** A factory whose threads all have this name, for logs and thread dumps. */
  public static ThreadFactory named(String name) {
    return task -> {
      Thread thread = new Thread(task, name);
      thread.setDaemon(true);
      return thread;
    };
  }
}
