package tepidarium.rollup.sqlite;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import tepidarium.fault.Fault;
import tepidarium.fault.FaultKind;
import tepidarium.fault.QuantityDay;
import tepidarium.fault.SensorDay;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Encodes the fault search of a day as bytes, with quantities and kinds by name. */
final class SensorDayBytes {
  private SensorDayBytes() {}

  static byte[] of(SensorDay day) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      out.writeInt(day.readings());
      out.writeDouble(day.intervalSeconds());
      out.writeDouble(day.batteryV());
      out.writeInt(day.faults().size());
      for (Fault fault : day.faults()) {
        write(out, fault);
      }
      out.writeInt(day.quantities().size());
      for (Map.Entry<Quantity, QuantityDay> one : day.quantities().entrySet()) {
        out.writeUTF(one.getKey().key());
        write(out, one.getValue());
      }
      out.writeInt(day.hourlyMeans().size());
      for (Map.Entry<Quantity, double[]> one : day.hourlyMeans().entrySet()) {
        out.writeUTF(one.getKey().key());
        for (double mean : one.getValue()) {
          out.writeFloat((float) mean);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static void write(DataOutputStream out, Fault fault) throws IOException {
    Quantity quantity = fault.quantity();
    out.writeUTF(quantity == null ? "" : quantity.key());
    out.writeUTF(fault.kind().key());
    out.writeLong(fault.from().toEpochMilli());
    out.writeLong(fault.to().toEpochMilli());
    out.writeInt(fault.readings());
    out.writeDouble(fault.low());
    out.writeDouble(fault.high());
  }

  private static void write(DataOutputStream out, QuantityDay day) throws IOException {
    out.writeInt(day.readings());
    out.writeInt(day.changes());
    out.writeLong(day.firstMs());
    out.writeLong(day.lastMs());
    out.writeDouble(day.last());
  }

  static SensorDay read(SensorId sensor, long day, byte[] bytes) {
    try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes))) {
      int readings = in.readInt();
      double interval = in.readDouble();
      double battery = in.readDouble();
      List<Fault> faults = new ArrayList<>();
      for (int i = in.readInt(); i > 0; i--) {
        faults.add(fault(sensor, in));
      }
      Map<Quantity, QuantityDay> quantities = new EnumMap<>(Quantity.class);
      for (int i = in.readInt(); i > 0; i--) {
        quantities.put(Quantity.ofKey(in.readUTF()).orElseThrow(), quantityDay(in));
      }
      Map<Quantity, double[]> means = new EnumMap<>(Quantity.class);
      for (int i = in.readInt(); i > 0; i--) {
        Quantity quantity = Quantity.ofKey(in.readUTF()).orElseThrow();
        double[] hours = new double[24];
        for (int hour = 0; hour < hours.length; hour++) {
          hours[hour] = in.readFloat();
        }
        means.put(quantity, hours);
      }
      return new SensorDay(sensor, day, faults, readings, interval, battery, quantities, means);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static QuantityDay quantityDay(DataInputStream in) throws IOException {
    return new QuantityDay(
        in.readInt(), in.readInt(), in.readLong(), in.readLong(), in.readDouble());
  }

  private static Fault fault(SensorId sensor, DataInputStream in) throws IOException {
    return new Fault(
        sensor,
        Quantity.ofKey(in.readUTF()).orElse(null),
        FaultKind.ofKey(in.readUTF()).orElseThrow(),
        Instant.ofEpochMilli(in.readLong()),
        Instant.ofEpochMilli(in.readLong()),
        in.readInt(),
        in.readDouble(),
        in.readDouble(),
        null);
  }
}
