package tepidarium.faults;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;

/** A socket to the pages that sends any bytes and tells what comes back. */
final class RawHttp implements AutoCloseable {
  private static final int ANSWER_MS = 10_000;

  /** What {@link #status} tells when the connection was closed without an answer. */
  static final int CLOSED = 0;

  /** What {@link #status} tells when nothing came back in time. */
  static final int SILENCE = -1;

  private final Socket socket = new Socket();

  RawHttp(Target target) throws IOException {
    socket.setReceiveBufferSize(4_096);
    socket.setSoTimeout(ANSWER_MS);
    socket.connect(
        new InetSocketAddress(InetAddress.getLoopbackAddress(), target.pages().getPort()),
        ANSWER_MS);
  }

  /** The status of the answer to a request over a connection of its own. */
  static int status(Target target, byte[] request) throws IOException {
    return status(target, request, ANSWER_MS);
  }

  static int status(Target target, byte[] request, int answerMs) throws IOException {
    try (RawHttp http = new RawHttp(target)) {
      http.socket.setSoTimeout(answerMs);
      http.send(request);
      return http.status();
    }
  }

  void send(byte[] bytes) {
    try {
      socket.getOutputStream().write(bytes);
    } catch (IOException e) {
      // The server may answer and close before it has read everything.
    }
  }

  int status() {
    String line = firstLine();
    if (line == null) {
      return SILENCE;
    }
    String[] words = line.split(" ", 3);
    return words.length > 1 && words[1].matches("[0-9]{3}") ? Integer.parseInt(words[1]) : CLOSED;
  }

  /** The first line of the answer, empty where the connection was closed; null for silence. */
  private @org.jspecify.annotations.Nullable String firstLine() {
    try {
      BufferedReader lines =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.ISO_8859_1));
      String line = lines.readLine();
      return line == null ? "" : line;
    } catch (java.net.SocketTimeoutException e) {
      return null;
    } catch (IOException e) {
      return "";
    }
  }

  /** Everything that comes back until the connection closes or falls silent. */
  String all() throws IOException {
    StringBuilder text = new StringBuilder();
    byte[] buffer = new byte[8_192];
    socket.setSoTimeout(2_000);
    try {
      for (int n = socket.getInputStream().read(buffer); n >= 0; ) {
        text.append(new String(buffer, 0, n, StandardCharsets.ISO_8859_1));
        n = socket.getInputStream().read(buffer);
      }
    } catch (IOException e) {
      // Silence or a reset: what has come is all there is.
    }
    return text.toString();
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
