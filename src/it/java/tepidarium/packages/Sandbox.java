package tepidarium.packages;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Runs programs as root on a system that is not this machine: another root folder in a mount
 * namespace of its own. What they change is gone at the end. They share this machine's network.
 */
final class Sandbox implements AutoCloseable {
  /** Mounts that each root needs. */
  private static final String COMMON =
      """
      mount -t proc proc "$root/proc"
      mount --rbind /dev "$root/dev"
      echo ready
      exec cat
      """;

  /**
   * A root with the files of this machine below and a memory disk above, which takes all changes.
   * It has no JDK.
   */
  private static final String COPY_OF_THIS_MACHINE =
      """
      set -e
      mount -t tmpfs -o size=1500m,mode=755 tmpfs "$1"
      mkdir "$1/changes" "$1/work" "$1/root"
      root=$1/root
      mount -t overlay overlay -o "lowerdir=/,upperdir=$1/changes,workdir=$1/work" "$root"
      mount -t tmpfs -o mode=755 tmpfs "$root/run"
      [ ! -d "$root/usr/lib/jvm" ] || mount -t tmpfs tmpfs "$root/usr/lib/jvm"
      """
          + COMMON;

  private static final String GIVEN_ROOT =
      """
      set -e
      root=$1
      mkdir -p "$root/proc" "$root/dev"
      """
          + COMMON;

  private final Process holder;
  private final String root;

  private Sandbox(String script, Path folder, String root) {
    this.root = root;
    try {
      holder =
          new ProcessBuilder(
                  "unshare", "--mount", "sh", "-c", script, "sandbox", folder.toAbsolutePath() + "")
              .redirectErrorStream(true)
              .start();
      BufferedReader words =
          new BufferedReader(
              new InputStreamReader(holder.getInputStream(), StandardCharsets.UTF_8));
      assertEquals("ready", words.readLine(), "these tests need a root who may mount");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * A copy of this machine without a JDK.
   *
   * @param folder an empty folder for it
   */
  static Sandbox ofThisMachine(Path folder) {
    return new Sandbox(COPY_OF_THIS_MACHINE, folder, folder.toAbsolutePath() + "/root");
  }

  /** A system with the files of a folder, and no others. */
  static Sandbox of(Path root) {
    return new Sandbox(GIVEN_ROOT, root, root.toAbsolutePath().toString());
  }

  /**
   * The arguments that run a command in it as a user, given by name or number. The command replaces
   * the process that starts it.
   */
  List<String> commandAs(String user, String group, List<String> command) {
    List<String> all =
        new ArrayList<>(
            List.of("nsenter", "--mount", "--target", "" + holder.pid(), "chroot", "--groups="));
    all.addAll(List.of("--userspec=" + user + ':' + group, root));
    all.addAll(command);
    return all;
  }

  /** Runs a shell script in it as root; what it says. Fails if the script fails. */
  String run(String script) {
    return run(script, Path.of("/dev/null"));
  }

  /** Runs a shell script with a file of this machine as its standard input. */
  String run(String script, Path input) {
    try {
      Process process =
          new ProcessBuilder(commandAs("0", "0", List.of("/bin/sh", "-c", script)))
              .redirectErrorStream(true)
              .redirectInput(input.toFile())
              .start();
      String words = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertEquals(0, process.waitFor(), script + ": " + words);
      return words;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    holder.destroyForcibly();
  }
}
