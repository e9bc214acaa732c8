package dev.ullage.benchmark;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.Assessment;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Evaluations a second inside one process, target after target. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class SizingBenchmark {
  private final Loop loop =
      LoopReader.read(Path.of("generated-samples/cold-store/cold-store.yaml"));
  private final Sizing sizing = new Sizing(CostTables.packed());
  private final List<Target> targets = Catalogue.load().targets();
  private final List<Firmware> plans =
      targets.stream()
          .map(target -> Plan.of(loop, target))
          .filter(Plan.Possible.class::isInstance)
          .map(plan -> ((Plan.Possible) plan).firmware())
          .toList();
  private int turn;

  /** From a plan to its bytes. */
  @Benchmark
  public Estimate estimate() {
    Firmware plan = plans.get(turn++ % plans.size());
    return sizing.estimate(plan.target(), plan.modules(), plan.buffers());
  }

  /** From a loop and a target to a verdict: plan, bytes, judgement. */
  @Benchmark
  public Assessment assess() {
    return Assessment.of(loop, targets.get(turn++ % targets.size()), sizing);
  }
}
