package tepidarium.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** An answer to a request that a well-behaved client cannot send. */
record RawHttp(int status, String type, String body) {
  /** Sends the head of a request, ends its sending there, and reads the answer to its end. */
  static RawHttp send(String base, String... head) {
    URI address = URI.create(base);
    try (Socket socket = new Socket(address.getHost(), address.getPort())) {
      socket.setSoTimeout(20_000);
      String text = String.join("\r\n", head) + "\r\nHost: x\r\nConnection: close\r\n\r\n";
      socket.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
      socket.getOutputStream().flush();
      byte[] answer = socket.getInputStream().readAllBytes();
      return read(new String(answer, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static RawHttp read(String answer) {
    String[] parts = answer.split("\r\n\r\n", 2);
    String type =
        parts[0]
            .lines()
            .filter(line -> line.toLowerCase(Locale.ROOT).startsWith("content-type:"))
            .map(line -> line.substring(13).strip())
            .findFirst()
            .orElse("");
    return new RawHttp(Integer.parseInt(parts[0].split(" ", -1)[1]), type, parts[1]);
  }
}
