package tepidarium.series.influx;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import okhttp3.Interceptor;
import okhttp3.OkHttpClient;
import okhttp3.Response;
import okhttp3.ResponseBody;
import org.influxdb.InfluxDB;
import org.influxdb.InfluxDBException;
import org.influxdb.InfluxDBFactory;
import org.influxdb.InfluxDBIOException;
import org.influxdb.dto.Query;
import org.influxdb.dto.QueryResult;
import org.jspecify.annotations.Nullable;
import tepidarium.series.StoreException;

/**
 * Calls to one InfluxDB server, each with a time limit. Nothing is sent before the first call, and
 * a server that is away makes the call fail, not the service. Requests are not compressed: on a
 * local network that costs more than it saves. Safe for use by several threads.
 */
final class InfluxServer implements AutoCloseable {
  private static final Duration CONNECT_LIMIT = Duration.ofSeconds(2);
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(10);
  private static final Duration CALL_LIMIT = Duration.ofSeconds(30);

  /** For this long after a failed call the next question fails at once, with the same words. */
  private static final long REST_NANOS = Duration.ofSeconds(1).toNanos();

  private static final int LONGEST_WORDS = 300;

  /** A call that could not be made, and until when on the monotonic clock it is not tried again. */
  private record Failure(String words, Exception cause, long untilNanos) {}

  private final InfluxAddress address;
  private @Nullable InfluxDB client;
  private volatile @Nullable Failure lately;

  InfluxServer(InfluxAddress address) {
    this.address = address;
  }

  /** Made at the first call, because making it looks the host's name up. */
  private synchronized InfluxDB client() {
    if (client == null) {
      OkHttpClient.Builder http =
          new OkHttpClient.Builder()
              .connectTimeout(CONNECT_LIMIT)
              .readTimeout(ANSWER_LIMIT)
              .writeTimeout(ANSWER_LIMIT)
              .callTimeout(CALL_LIMIT)
              .addInterceptor(this::authorised)
              .addInterceptor(InfluxServer::successful);
      String user = address.user();
      String password = address.password() == null ? "" : address.password();
      client =
          user == null
              ? InfluxDBFactory.connect(address.url(), http)
              : InfluxDBFactory.connect(address.url(), user, password, http);
    }
    return client;
  }

  private Response authorised(Interceptor.Chain chain) throws IOException {
    String token = address.token();
    return chain.proceed(
        token == null
            ? chain.request()
            : chain.request().newBuilder().header("Authorization", "Token " + token).build());
  }

  /** The library drops the status of an answer; it is needed to tell whether to try again. */
  private static Response successful(Interceptor.Chain chain) throws IOException {
    Response response = chain.proceed(chain.request());
    if (response.isSuccessful()) {
      return response;
    }
    try (ResponseBody body = response.body()) {
      String text = body == null ? "" : body.string();
      InfluxDBException words = InfluxDBException.buildExceptionForErrorState(text);
      throw new ErrorResponse(response.code(), shortened(words.getMessage(), response.code()));
    }
  }

  private static String shortened(@Nullable String words, int status) {
    String text = words == null || words.isBlank() ? "status " + status : words.strip();
    return text.length() <= LONGEST_WORDS ? text : text.substring(text.length() - LONGEST_WORDS);
  }

  /**
   * Writes points, times in milliseconds.
   *
   * @throws ErrorResponse when the server will never take one or more of them; the others may be written
   * @throws StoreException when it cannot take them now
   */
  void write(String lines) throws ErrorResponse {
    call(
        client -> {
          client.write(
              address.database(),
              null,
              InfluxDB.ConsistencyLevel.ONE,
              TimeUnit.MILLISECONDS,
              lines);
          return true;
        });
  }

  /**
   * Asks, with times in milliseconds; a result for each statement.
   *
   * @throws StoreException when the server cannot answer now
   */
  List<QueryResult.Result> ask(String statements) {
    Failure failure = lately;
    if (failure != null && System.nanoTime() - failure.untilNanos() < 0) {
      throw new StoreException(failure.words(), failure.cause());
    }
    try {
      Query query = new Query(statements, address.database(), true);
      return call(client -> answered(client.query(query, TimeUnit.MILLISECONDS)));
    } catch (ErrorResponse e) {
      throw failed(e);
    }
  }

  /** A question that fails is answered as one that succeeds, with an error inside. */
  private static List<QueryResult.Result> answered(QueryResult answer) {
    if (answer.hasError()) {
      throw new InfluxDBException(answer.getError());
    }
    if (answer.getResults() == null) {
      throw new InfluxDBException("an answer without results: is it InfluxDB?");
    }
    for (QueryResult.Result result : answer.getResults()) {
      if (result.hasError()) {
        throw new InfluxDBException(result.getError());
      }
    }
    return answer.getResults();
  }

  /**
   * Finds out whether the server answers and lets this service in.
   *
   * @throws StoreException when not
   */
  void probe() {
    lately = null;
    ask("SHOW MEASUREMENTS LIMIT 1");
  }

  private <T> T call(Function<InfluxDB, T> request) throws ErrorResponse {
    try {
      return request.apply(client());
    } catch (InfluxDBException e) {
      ErrorResponse refusal = refusal(e);
      if (refusal == null) {
        throw failed(e);
      }
      if (refusal.isMissingDatabase()) {
        return withNewDatabase(request);
      }
      if (refusal.isPermanent()) {
        throw refusal;
      }
      throw failed(refusal);
    }
  }

  private static @Nullable ErrorResponse refusal(InfluxDBException e) {
    if (e.getCause() instanceof ErrorResponse refusal) {
      return refusal;
    }
    // Said in an answer that is a success otherwise, as queries do.
    return e instanceof InfluxDBIOException
        ? null
        : new ErrorResponse(200, String.valueOf(e.getMessage()));
  }

  private <T> T withNewDatabase(Function<InfluxDB, T> request) throws ErrorResponse {
    try {
      String create = "CREATE DATABASE \"" + address.database() + '"';
      answered(client().query(new Query(create, null, true), TimeUnit.MILLISECONDS));
      return request.apply(client());
    } catch (InfluxDBException e) {
      ErrorResponse refusal = refusal(e);
      if (refusal != null && refusal.isPermanent()) {
        throw refusal;
      }
      throw failed(refusal == null ? e : refusal);
    }
  }

  private StoreException failed(Exception e) {
    Throwable cause = e instanceof InfluxDBIOException && e.getCause() != null ? e.getCause() : e;
    String reason = cause instanceof ErrorResponse ? cause.getMessage() : cause.toString();
    String words = "InfluxDB at " + address.url() + " does not answer: " + reason;
    if (cause instanceof ErrorResponse) {
      words = "InfluxDB at " + address.url() + " says: " + reason;
    }
    lately = new Failure(words, e, System.nanoTime() + REST_NANOS);
    return new StoreException(words, e);
  }

  @Override
  public synchronized void close() {
    if (client != null) {
      client.close();
    }
  }
}
