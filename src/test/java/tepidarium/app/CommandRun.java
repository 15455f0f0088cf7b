package tepidarium.app;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine;

/**
 * A command that has run in this process.
 *
 * @param output standard output and standard error
 */
record CommandRun(int status, String output) {
  static CommandRun of(Callable<Integer> subcommand, String... options) {
    StringWriter output = new StringWriter();
    CommandLine command = new CommandLine(subcommand);
    command.setOut(new PrintWriter(output, true));
    command.setErr(new PrintWriter(output, true));
    command.setExecutionExceptionHandler(
        (exception, line, result) -> {
          line.getErr().println(exception.getMessage());
          return 1;
        });
    return new CommandRun(command.execute(options), output.toString());
  }
}
