package tepidarium.app;

import java.net.URI;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.sites.OtherSite;

/**
 * The settings {@code site.name}, {@code sites} and {@code siteTokens} of a settings file, before
 * the checks.
 */
record NetworkSection(
    @Nullable String name,
    @Nullable Map<String, @Nullable List<String>> sites,
    @Nullable Map<String, @Nullable String> siteTokens) {
  private static final Pattern NAME = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N} .-]{0,39}");

  /** Visible ASCII, as it may stand in a field of a request (RFC 9110, section 5.5). */
  private static final Pattern TOKEN = Pattern.compile("[!-~]+");

  private static final Pattern LINE_BREAK_AT_THE_END = Pattern.compile("\\r?\\n\\z");

  Config.Network checked(ConfigProblems problems) {
    String ownName = problems.filled("site.name", name);
    if (ownName != null) {
      checkName(problems, "site.name", ownName);
    }
    Map<String, String> tokens = tokens(problems);
    List<OtherSite> others = new ArrayList<>();
    Map<String, @Nullable List<String>> given = sites == null ? Map.of() : sites;
    given.forEach(
        (other, addresses) -> {
          checkName(problems, "sites", other);
          if (addresses == null || addresses.isEmpty()) {
            problems.add("sites." + other + " needs the addresses of its machines");
          } else {
            List<URI> checked = addresses(problems, other, addresses);
            others.add(new OtherSite(other, checked, tokens.get(other)));
          }
        });
    for (String other : tokens.keySet()) {
      if (!given.containsKey(other)) {
        problems.add("siteTokens " + other + ": there is no site of this name in sites");
      }
    }
    return new Config.Network(ownName, others);
  }

  private static List<URI> addresses(ConfigProblems problems, String site, List<String> given) {
    List<URI> checked = new ArrayList<>();
    for (String address : given) {
      if (ConfigFile.isWebAddress(address)) {
        checked.add(URI.create(address.replaceFirst("/+$", "")));
      } else {
        problems.add(
            "sites."
                + site
                + " must list addresses like https://north.example.org, not \""
                + address
                + '"');
      }
    }
    return checked;
  }

  private Map<String, String> tokens(ConfigProblems problems) {
    Map<String, String> checked = new HashMap<>();
    problems
        .passwords("siteTokens", siteTokens == null ? Map.of() : siteTokens)
        .forEach(
            (site, token) -> {
              // A token that was copied from a file often has the end of its line.
              String line = LINE_BREAK_AT_THE_END.matcher(token).replaceFirst("");
              if (!TOKEN.matcher(line).matches()) {
                // Without the token, which is secret.
                problems.add(
                    "siteTokens "
                        + site
                        + " must be an access token in one piece: letters, digits and signs of ASCII"
                        + " without spaces");
              }
              checked.put(site, line);
            });
    return checked;
  }

  private static void checkName(ConfigProblems problems, String setting, String name) {
    String unused =
        problems.that(
            setting,
            name,
            text -> NAME.matcher(text).matches(),
            "must have 1 to 40 letters, digits, spaces, dots or hyphens");
  }
}
