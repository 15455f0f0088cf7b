package tepidarium.packages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Builds the archive and the Debian package, installs both on a copy of this machine without a JDK,
 * and sends a reading to the service of each. The copy has a script in place of systemctl.
 */
class PackagesIT {
  /** Stands in for systemd, which does not run in tests, and notes its calls. */
  private static final String SYSTEMCTL =
      """
      mkdir -p /run/systemd/system
      cat >/usr/local/bin/systemctl <<'E'
      #!/bin/sh
      echo "$@" >>/run/systemctl
      E
      chmod 755 /usr/local/bin/systemctl
      """;

  @TempDir private static Path folder;

  @BeforeAll
  static void packages() throws Exception {
    Packages.build("archive", "deb");
  }

  @Test
  void theUnpackedArchiveInstallsAServiceThatReceivesReadings(@TempDir Path disk) throws Exception {
    try (Sandbox machine = Sandbox.ofThisMachine(disk)) {
      machine.run(SYSTEMCTL);
      machine.run("tar -xz -C /srv", Packages.built(".tar.gz"));
      String words = machine.run("/srv/tepidarium-*/tepidarium install");
      assertTrue(words.contains("service enabled and started"), words);
      assertEquals(
          "daemon-reload\nenable --quiet tepidarium.service\nrestart tepidarium.service\n",
          machine.run("cat /run/systemctl"));
      assertEquals(
          "750 tepidarium:tepidarium\n640 root:tepidarium\n755 root:root\n",
          machine.run(
              "stat -c '%a %U:%G' /var/lib/tepidarium /etc/tepidarium/tepidarium.yaml"
                  + " /opt/tepidarium"));

      Packages.receives(folder, startCommand(machine, "/etc/systemd/system/tepidarium.service"));
      String checked = machine.run("tepidarium check-config /etc/tepidarium/tepidarium.yaml");
      assertEquals("/etc/tepidarium/tepidarium.yaml can be used.\n", checked);
      assertEquals("tepidarium\n", machine.run("stat -c %U /var/lib/tepidarium/records.db"));

      String removed = machine.run("tepidarium uninstall");
      assertTrue(removed.contains("kept: the data in /var/lib/tepidarium"), removed);
      assertTrue(
          machine.run("cat /run/systemctl").contains("disable --quiet --now tepidarium.service"));
      machine.run(
          "test -e /var/lib/tepidarium/records.db && test ! -e /opt/tepidarium"
              + " && test ! -e /usr/local/bin/tepidarium"
              + " && test ! -e /etc/systemd/system/tepidarium.service");
    }
  }

  @Test
  void theDebianPackageInstallsAServiceThatReceivesReadings(@TempDir Path disk) throws Exception {
    try (Sandbox machine = Sandbox.ofThisMachine(disk)) {
      machine.run(SYSTEMCTL);
      machine.run("cat >/srv/it.deb && dpkg -i /srv/it.deb", Packages.built(".deb"));
      assertEquals(
          "daemon-reload\nenable --quiet tepidarium.service\n"
              + "is-enabled --quiet tepidarium.service\nrestart tepidarium.service\n",
          machine.run("cat /run/systemctl"));
      String refused = machine.run("! tepidarium install 2>&1");
      assertTrue(refused.contains("apt-get remove tepidarium"), refused);

      Packages.receives(
          folder, startCommand(machine, "/usr/lib/systemd/system/tepidarium.service"));

      machine.run("dpkg --purge tepidarium && test -e /var/lib/tepidarium/records.db");
      assertFalse(machine.run("ls /usr/lib /etc").contains("tepidarium"));
    }
  }

  @Test
  void thePackagedRunTimeWritesGerman() throws Exception {
    String java = Packages.OUT.resolve("runtime/bin/java").toString();
    Process process =
        new ProcessBuilder(java, "-cp", "target/test-classes", WritesGerman.class.getName())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    byte[] printed = process.getInputStream().readAllBytes();
    assertEquals("24,5 am 4. März\n", new String(printed, StandardCharsets.UTF_8));
  }

  @Test
  void thePackagesHaveNothingOfThisMachine() throws Exception {
    Path program = Packages.OUT.resolve("tepidarium");
    String here = Path.of("").toAbsolutePath().toString();
    List<Path> texts = new ArrayList<>();
    try (Stream<Path> files = Files.walk(program)) {
      files
          .filter(Files::isRegularFile)
          .filter(file -> !file.toString().matches(".*/(legal/.*|modules|.*\\.(so|jar|jsa))"))
          .forEach(texts::add);
    }
    assertTrue(texts.size() > 20, texts.toString());
    for (Path file : texts) {
      String text = Files.readString(file, StandardCharsets.ISO_8859_1);
      assertFalse(text.contains(here), file.toString());
    }
  }

  /** What systemd would run: the command of the unit, as its user. */
  private static List<String> startCommand(Sandbox machine, String unit) {
    List<String> lines = machine.run("cat " + unit).lines().toList();
    return machine.commandAs(
        setting(lines, "User"),
        setting(lines, "Group"),
        List.of(setting(lines, "ExecStart").split(" ")));
  }

  private static String setting(List<String> unit, String name) {
    return unit.stream()
        .filter(line -> line.startsWith(name + "="))
        .findFirst()
        .orElseThrow()
        .substring(name.length() + 1);
  }
}
