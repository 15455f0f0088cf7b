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
 * A client for one InfluxDB server with a timeout on each call. It connects lazily, at the first
 * call. When the server is down, calls fail with a {@link StoreException}. Requests are not
 * compressed, because on a local network compression costs more time than it saves. Thread-safe.
 */
final class InfluxServer implements AutoCloseable {
  private static final Duration CONNECT_LIMIT = Duration.ofSeconds(2);
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(10);
  private static final Duration CALL_LIMIT = Duration.ofSeconds(30);

  /** Backoff: for this long after a failed call, queries fail at once with the same message. */
  private static final long BACKOFF_NANOS = Duration.ofSeconds(1).toNanos();

  private static final int MAX_MESSAGE_LENGTH = 300;

  /** A failed call, and the monotonic time until which queries are not sent. */
  private record Failure(String message, Exception cause, long untilNanos) {}

  private final InfluxAddress address;
  private @Nullable InfluxDB client;
  private volatile @Nullable Failure lastFailure;

  InfluxServer(InfluxAddress address) {
    this.address = address;
  }

  /** Created at the first call, because creation looks up the host name. */
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

  /**
   * Throws for an error status. The library drops the HTTP status, which decides whether a retry
   * makes sense.
   */
  private static Response successful(Interceptor.Chain chain) throws IOException {
    Response response = chain.proceed(chain.request());
    if (response.isSuccessful()) {
      return response;
    }
    try (ResponseBody body = response.body()) {
      String text = body == null ? "" : body.string();
      InfluxDBException parsed = InfluxDBException.buildExceptionForErrorState(text);
      throw new ErrorResponse(response.code(), shortened(parsed.getMessage(), response.code()));
    }
  }

  private static String shortened(@Nullable String message, int status) {
    String text = message == null || message.isBlank() ? "status " + status : message.strip();
    return text.length() <= MAX_MESSAGE_LENGTH
        ? text
        : text.substring(text.length() - MAX_MESSAGE_LENGTH);
  }

  /**
   * Writes points in line protocol, times in epoch milliseconds.
   *
   * @throws ErrorResponse when the server rejects one or more points permanently; the others may be
   *     written
   * @throws StoreException when the server cannot accept them now
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
   * Runs query statements and returns one result for each; times are epoch milliseconds.
   *
   * @throws StoreException when the server cannot answer now
   */
  List<QueryResult.Result> ask(String statements) {
    Failure failure = lastFailure;
    if (failure != null && System.nanoTime() - failure.untilNanos() < 0) {
      throw new StoreException(failure.message(), failure.cause());
    }
    try {
      Query query = new Query(statements, address.database(), true);
      return call(client -> answered(client.query(query, TimeUnit.MILLISECONDS)));
    } catch (ErrorResponse e) {
      throw failed(e);
    }
  }

  /**
   * Throws for an error inside the response, because the server reports a failed query with a
   * success status.
   */
  private static List<QueryResult.Result> answered(QueryResult answer) {
    if (answer.hasError()) {
      throw new InfluxDBException(answer.getError());
    }
    if (answer.getResults() == null) {
      throw new InfluxDBException("the response has no results: is it InfluxDB?");
    }
    for (QueryResult.Result result : answer.getResults()) {
      if (result.hasError()) {
        throw new InfluxDBException(result.getError());
      }
    }
    return answer.getResults();
  }

  /**
   * Checks that the server answers and accepts the login.
   *
   * @throws StoreException when not
   */
  void probe() {
    lastFailure = null;
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
    // An error inside a response with a success status, as for queries.
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
    String message = "InfluxDB at " + address.url() + " does not answer: " + reason;
    if (cause instanceof ErrorResponse) {
      message = "InfluxDB at " + address.url() + " says: " + reason;
    }
    lastFailure = new Failure(message, e, System.nanoTime() + BACKOFF_NANOS);
    return new StoreException(message, e);
  }

  @Override
  public synchronized void close() {
    if (client != null) {
      client.close();
    }
  }
}
