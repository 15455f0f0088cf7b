package tepidarium.app;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tepidarium.access.Passwords;
import tepidarium.reading.InvalidInput;

/** Sets the password of an owner, whether the service runs or not. */
@Command(
    name = "password",
    mixinStandardHelpOptions = true,
    description = {
      "Sets the password of a person with the role own, and ends that person's sessions. Adds the"
          + " person if there is none of this name.",
      "Asks for the password twice on a terminal. Otherwise reads one line from standard input.",
      "A running service takes the new password within a few seconds, otherwise its next start"
          + " does."
    })
final class PasswordCommand implements Callable<Integer> {
  private static final Duration LIMIT = Duration.ofSeconds(15);

  @Mixin private FolderOptions folder = new FolderOptions();

  @Option(
      names = "--name",
      paramLabel = "NAME",
      description = "whose password to set (default: " + LoginStart.OWNER + ")")
  private String name = LoginStart.OWNER;

  @Override
  public Integer call() throws IOException, InterruptedException {
    Path data = folder.config().data();
    String password = ask();
    Passwords.check(name, password);
    NewPassword given = new NewPassword(name.strip(), Passwords.hash(password));
    boolean running = isInUse(data);
    given.write(data);
    if (!running) {
      System.out.println("The password of " + name + " is set. It holds from the next start on.");
      return 0;
    }
    if (isTaken(data)) {
      System.out.println(
          "The password of " + name + " is set, and the sessions of " + name + " have ended.");
      return 0;
    }
    throw new IllegalStateException(
        "the running service has not taken the new password within "
            + LIMIT.toSeconds()
            + " s. Run this command as the user that the service runs as, or start the service"
            + " again.");
  }

  private static boolean isInUse(Path data) throws IOException {
    Files.createDirectories(data);
    try {
      DataFolder.open(data).close();
      return false;
    } catch (IllegalStateException e) {
      return true;
    }
  }

  private static boolean isTaken(Path data) throws InterruptedException {
    long end = System.nanoTime() + LIMIT.toNanos();
    while (NewPassword.exists(data)) {
      if (System.nanoTime() - end > 0) {
        return false;
      }
      TimeUnit.MILLISECONDS.sleep(50);
    }
    return true;
  }

  private static String ask() throws IOException {
    // Otherwise, later Java versions return a console even if standard input is a file.
    System.setProperty("jdk.console", "java.base");
    Console console = System.console();
    return console == null ? readLine() : askTwice(console);
  }

  private static String readLine() throws IOException {
    BufferedReader input =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    String line = input.readLine();
    if (line == null) {
      throw new InvalidInput("password", "is missing: write it to standard input as one line");
    }
    return line;
  }

  private static String askTwice(Console console) {
    char[] first = read(console, "New password: ");
    char[] second = read(console, "Once more: ");
    if (!Arrays.equals(first, second)) {
      throw new InvalidInput("the two passwords differ; nothing was changed");
    }
    return new String(first);
  }

  private static char[] read(Console console, String prompt) {
    char @Nullable [] typed = console.readPassword(prompt);
    if (typed == null) {
      throw new InvalidInput("password", "is missing; nothing was changed");
    }
    return typed;
  }
}
