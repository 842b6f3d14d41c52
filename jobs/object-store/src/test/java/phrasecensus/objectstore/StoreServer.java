package phrasecensus.objectstore;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.gaul.s3proxy.AuthenticationType;
import org.gaul.s3proxy.S3Proxy;
import org.jclouds.ContextBuilder;
import org.jclouds.apis.ApiMetadata;
import org.jclouds.blobstore.BlobStore;
import org.jclouds.blobstore.BlobStoreContext;
import org.jclouds.blobstore.domain.StorageMetadata;
import org.jclouds.blobstore.options.ListContainerOptions;

/**
 * S3Proxy on loopback, its objects in memory, and before it a gate that counts every request, and
 * that can answer in the place of the server or do something just before a request is passed on.
 */
final class StoreServer implements AutoCloseable {
  static final String IDENTITY = "phrase-census";
  static final String SECRET = "invented-for-a-test";

  /** Headers that Java's client would rather write itself. The signature covers the host. */
  private static final Set<String> LEFT_OUT =
      Set.of("connection", "content-length", "expect", "transfer-encoding", "upgrade");

  static {
    System.setProperty("jdk.httpclient.allowRestrictedHeaders", "host");
    System.setProperty("sun.net.httpserver.nodelay", "true");
  }

  /**
   * A request as the gate sees it.
   *
   * @param number from one, since the gate was last told to count anew
   * @param key bucket and key of the object, or what is asked of a bucket
   * @param conditional whether an object is to be made only if there is none
   */
  record Request(int number, String method, String key, boolean conditional) {
    /** Method and key without identifiers, numbers of parts and names of scores and pages. */
    String kind() {
      return method
          + " "
          + key.replaceAll("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}|[0-9a-f]{32}", "ID")
              .replaceAll("\\d+", "N")
              .replaceAll("[^/=&?]*\\.(musicxml|html|json|css|parquet)", "*.$1");
    }
  }

  /** What happens at a request. */
  interface Gate {
    /**
     * @return the status to answer with in the place of the server; 0 to pass the request on
     */
    int at(Request request) throws IOException;
  }

  private final BlobStoreContext context;
  private final S3Proxy server;
  private final HttpServer front;
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final HttpClient client =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).executor(threads).build();
  private final List<Request> requests = Collections.synchronizedList(new ArrayList<>());
  private volatile Gate gate = request -> 0;
  private volatile Duration ageOfLocks = Duration.ZERO;

  /**
   * @param backend of S3Proxy
   */
  StoreServer(ApiMetadata backend) throws Exception {
    context =
        ContextBuilder.newBuilder(backend)
            .credentials(IDENTITY, SECRET)
            .overrides(new Properties())
            .build(BlobStoreContext.class);
    server =
        S3Proxy.builder()
            .blobStore(context.getBlobStore())
            .endpoint(URI.create("http://127.0.0.1:0"))
            // Else it refuses to delete many objects at once, for a header that the SDK adds.
            .ignoreUnknownHeaders(true)
            .awsAuthentication(AuthenticationType.AWS_V2_OR_V4, IDENTITY, SECRET)
            .build();
    server.start();
    front = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 64);
    front.setExecutor(threads);
    front.createContext("/", this::pass);
    front.start();
  }

  String endpoint() {
    return "http://127.0.0.1:" + front.getAddress().getPort();
  }

  /** The objects themselves, behind the gate. */
  BlobStore store() {
    return context.getBlobStore();
  }

  void bucket(String name) {
    store().createContainerInLocation(null, name);
  }

  void put(String bucket, String key, byte[] content) {
    store()
        .putBlob(
            bucket,
            store().blobBuilder(key).payload(content).contentLength(content.length).build());
  }

  byte[] get(String bucket, String key) throws IOException {
    try (InputStream content = store().getBlob(bucket, key).getPayload().openStream()) {
      return content.readAllBytes();
    }
  }

  /** Keys of all objects below a prefix, marks of folders left out. */
  Set<String> keys(String bucket, String prefix) {
    Set<String> keys = new TreeSet<>();
    String after = null;
    do {
      ListContainerOptions options =
          ListContainerOptions.Builder.recursive().prefix(prefix).maxResults(1000);
      var page = store().list(bucket, after == null ? options : options.afterMarker(after));
      for (StorageMetadata object : page) {
        if (!object.getName().endsWith("/")) {
          keys.add(object.getName());
        }
      }
      after = page.getNextMarker();
    } while (after != null);
    return keys;
  }

  /** Counts from nought, and does something at every request from now on. */
  void count(Gate at) {
    requests.clear();
    gate = at;
  }

  /** Counts from nought, and passes all requests on. */
  void count() {
    count(request -> 0);
  }

  List<Request> requests() {
    synchronized (requests) {
      return List.copyOf(requests);
    }
  }

  /**
   * Lets locks look older by the clock of the store than they are: or every kill takes a minute.
   */
  void ageLocks(Duration by) {
    ageOfLocks = by;
  }

  private Request counted(HttpExchange exchange) {
    URI uri = exchange.getRequestURI();
    synchronized (requests) {
      Request request =
          new Request(
              requests.size() + 1,
              exchange.getRequestMethod(),
              uri.getPath().substring(1) + (uri.getQuery() == null ? "" : "?" + uri.getQuery()),
              exchange.getRequestHeaders().containsKey("If-None-Match"));
      requests.add(request);
      return request;
    }
  }

  private void pass(HttpExchange exchange) throws IOException {
    try (exchange) {
      byte[] body = exchange.getRequestBody().readAllBytes();
      Request request = counted(exchange);
      int status = gate.at(request);
      if (status != 0) {
        refuse(exchange, status);
        return;
      }
      HttpRequest.Builder passed =
          HttpRequest.newBuilder(
                  URI.create("http://127.0.0.1:" + server.getPort() + exchange.getRequestURI()))
              .method(
                  exchange.getRequestMethod(),
                  body.length == 0
                      ? HttpRequest.BodyPublishers.noBody()
                      : HttpRequest.BodyPublishers.ofByteArray(body));
      exchange
          .getRequestHeaders()
          .forEach(
              (name, values) -> {
                if (!LEFT_OUT.contains(name.toLowerCase(Locale.ROOT))) {
                  values.forEach(value -> passed.header(name, value));
                }
              });
      HttpResponse<byte[]> answer =
          client.send(passed.build(), HttpResponse.BodyHandlers.ofByteArray());
      answer(exchange, request, answer);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void answer(HttpExchange exchange, Request request, HttpResponse<byte[]> answer)
      throws IOException {
    boolean head = request.method().equals("HEAD");
    for (Map.Entry<String, List<String>> header : answer.headers().map().entrySet()) {
      String name = header.getKey().toLowerCase(Locale.ROOT);
      if (!name.equals("transfer-encoding") && (head || !name.equals("content-length"))) {
        for (String value : header.getValue()) {
          exchange.getResponseHeaders().add(header.getKey(), aged(name, value, request));
        }
      }
    }
    byte[] content = answer.body();
    exchange.sendResponseHeaders(
        answer.statusCode(), head || content.length == 0 ? -1 : content.length);
    if (!head && content.length > 0) {
      try (OutputStream stream = exchange.getResponseBody()) {
        stream.write(content);
      }
    }
  }

  private String aged(String header, String value, Request request) {
    return header.equals("last-modified") && request.key().endsWith("/.phrase-census-lock")
        ? DateTimeFormatter.RFC_1123_DATE_TIME.format(
            ZonedDateTime.parse(value, DateTimeFormatter.RFC_1123_DATE_TIME)
                .withZoneSameInstant(ZoneOffset.UTC)
                .minus(ageOfLocks))
        : value;
  }

  private static void refuse(HttpExchange exchange, int status) throws IOException {
    String code = status == 503 ? "SlowDown" : "InternalError";
    byte[] content =
        ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<Error><Code>"
                + code
                + "</Code><Message>not now</Message></Error>")
            .getBytes(StandardCharsets.UTF_8);
    boolean head = exchange.getRequestMethod().equals("HEAD");
    exchange.getResponseHeaders().add("Content-Type", "application/xml");
    exchange.sendResponseHeaders(status, head ? -1 : content.length);
    if (!head) {
      exchange.getResponseBody().write(content);
    }
  }

  @Override
  public void close() {
    front.stop(0);
    try {
      server.stop();
    } catch (Exception e) {
      throw new IllegalStateException("The server does not stop", e);
    }
    context.close();
    threads.shutdownNow();
  }
}
