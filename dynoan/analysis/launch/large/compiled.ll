; 2c7bed534f850d181610a695625f8dc867697a706cfa5e4ff1fe162174af9d6c
; made by fixtures/make_machine_code.py from compiled.py and its neighbours
define i32 @run_rows(ptr noalias %retptr, ptr noalias %excinfo, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, ptr %arg.of_row.0, ptr %arg.of_row.1, i64 %arg.of_row.2, i64 %arg.of_row.3, ptr %arg.of_row.4, i64 %arg.of_row.5.0, i64 %arg.of_row.5.1, i64 %arg.of_row.6.0, i64 %arg.of_row.6.1, ptr %arg.grounds.0, ptr %arg.grounds.1, i64 %arg.grounds.2, i64 %arg.grounds.3, ptr %arg.grounds.4, i64 %arg.grounds.5.0, i64 %arg.grounds.5.1, i64 %arg.grounds.6.0, i64 %arg.grounds.6.1, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.5.1, i64 %arg.heights.6.0, i64 %arg.heights.6.1, double %arg.spacing, ptr %arg.forces.0, ptr %arg.forces.1, i64 %arg.forces.2, i64 %arg.forces.3, ptr %arg.forces.4, i64 %arg.forces.5.0, i64 %arg.forces.5.1, i64 %arg.forces.6.0, i64 %arg.forces.6.1, ptr %arg.throttles.0, ptr %arg.throttles.1, i64 %arg.throttles.2, i64 %arg.throttles.3, ptr %arg.throttles.4, i64 %arg.throttles.5.0, i64 %arg.throttles.5.1, i64 %arg.throttles.6.0, i64 %arg.throttles.6.1, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.starts.0, ptr %arg.starts.1, i64 %arg.starts.2, i64 %arg.starts.3, ptr %arg.starts.4, i64 %arg.starts.5.0, i64 %arg.starts.5.1, i64 %arg.starts.6.0, i64 %arg.starts.6.1, double %arg.step, ptr %arg.figures.0, ptr %arg.figures.1, i64 %arg.figures.2, i64 %arg.figures.3, ptr %arg.figures.4, i64 %arg.figures.5.0, i64 %arg.figures.5.1, i64 %arg.figures.6.0, i64 %arg.figures.6.1, ptr %arg.states.0, ptr %arg.states.1, i64 %arg.states.2, i64 %arg.states.3, ptr %arg.states.4, i64 %arg.states.5.0, i64 %arg.states.5.1, i64 %arg.states.5.2, i64 %arg.states.6.0, i64 %arg.states.6.1, i64 %arg.states.6.2, ptr %arg.kept.0, ptr %arg.kept.1, i64 %arg.kept.2, i64 %arg.kept.3, ptr %arg.kept.4, i64 %arg.kept.5.0, i64 %arg.kept.5.1, i64 %arg.kept.5.2, i64 %arg.kept.6.0, i64 %arg.kept.6.1, i64 %arg.kept.6.2, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.2, i64 %arg.work.3, ptr %arg.work.4, i64 %arg.work.5.0, i64 %arg.work.5.1, i64 %arg.work.6.0, i64 %arg.work.6.1) {
B0.endif:
  %.1306 = alloca ptr, align 8
  %excinfo.1 = alloca ptr, align 8
  store ptr null, ptr %excinfo.1, align 8
  %.416528.not = icmp slt i64 %arg.of_row.5.0, 1
  br i1 %.416528.not, label %B304, label %B58.lr.ph

B58.lr.ph:
  %.1168 = mul i64 %arg.states.5.2, %arg.states.5.1
  %.1257 = mul i64 %arg.kept.5.2, %arg.kept.5.1
  %0 = shl i64 %.1257, 3
  %1 = shl i64 %.1168, 3
  %2 = shl i64 %arg.figures.5.1, 3
  %scevgep12 = getelementptr i8, ptr %arg.of_row.4, i64 24
  %3 = shl i64 %arg.of_row.5.1, 3
  br label %B58

B58:
  %lsr.iv18 = phi i64 [ %arg.of_row.5.0, %B58.lr.ph ], [ %lsr.iv.next, %B58.endif ]
  %lsr.iv13 = phi ptr [ %scevgep12, %B58.lr.ph ], [ %scevgep14, %B58.endif ]
  %lsr.iv10 = phi ptr [ %arg.figures.4, %B58.lr.ph ], [ %scevgep11, %B58.endif ]
  %lsr.iv8 = phi ptr [ %arg.states.4, %B58.lr.ph ], [ %scevgep9, %B58.endif ]
  %lsr.iv = phi ptr [ %arg.kept.4, %B58.lr.ph ], [ %scevgep, %B58.endif ]
  %scevgep17 = getelementptr i8, ptr %lsr.iv13, i64 -24
  %.507 = load i64, ptr %scevgep17, align 8
  %scevgep16 = getelementptr i8, ptr %lsr.iv13, i64 -16
  %.561 = load i64, ptr %scevgep16, align 8
  %scevgep15 = getelementptr i8, ptr %lsr.iv13, i64 -8
  %.615 = load i64, ptr %scevgep15, align 8
  %.669 = load i64, ptr %lsr.iv13, align 8
  %.713 = icmp slt i64 %.561, 0
  %.714 = select i1 %.713, i64 %arg.grounds.5.0, i64 0
  %.715 = add i64 %.714, %.561
  %.732 = mul i64 %.715, %arg.grounds.5.1
  %.734 = getelementptr double, ptr %arg.grounds.4, i64 %.732
  %.784 = icmp slt i64 %.615, 0
  %.785 = select i1 %.784, i64 %arg.heights.5.0, i64 0
  %.786 = add i64 %.785, %.615
  %.803 = mul i64 %.786, %arg.heights.5.1
  %.805 = getelementptr double, ptr %arg.heights.4, i64 %.803
  %.855 = icmp slt i64 %.669, 0
  %.856 = select i1 %.855, i64 %arg.forces.5.0, i64 0
  %.857 = add i64 %.856, %.669
  %.874 = mul i64 %.857, %arg.forces.5.1
  %.876 = getelementptr double, ptr %arg.forces.4, i64 %.874
  %.927 = select i1 %.855, i64 %arg.throttles.5.0, i64 0
  %.928 = add i64 %.927, %.669
  %.945 = mul i64 %.928, %arg.throttles.5.1
  %.947 = getelementptr double, ptr %arg.throttles.4, i64 %.945
  %.998 = select i1 %.855, i64 %arg.starts.5.0, i64 0
  %.999 = add i64 %.998, %.669
  %.1016 = mul i64 %.999, %arg.starts.5.1
  %.1018 = getelementptr double, ptr %arg.starts.4, i64 %.1016
  %.1356 = call i32 @_run_row(ptr nonnull %.1306, ptr nonnull %excinfo.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %.507, ptr %arg.grounds.0, ptr %arg.grounds.1, i64 %arg.grounds.5.1, i64 %arg.grounds.3, ptr %.734, i64 %arg.grounds.5.1, i64 %arg.grounds.6.1, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.5.1, i64 %arg.heights.3, ptr %.805, i64 %arg.heights.5.1, i64 %arg.heights.6.1, double %arg.spacing, ptr %arg.forces.0, ptr %arg.forces.1, i64 %arg.forces.5.1, i64 %arg.forces.3, ptr %.876, i64 %arg.forces.5.1, i64 %arg.forces.6.1, ptr %arg.throttles.0, ptr %arg.throttles.1, i64 %arg.throttles.5.1, i64 %arg.throttles.3, ptr %.947, i64 %arg.throttles.5.1, i64 %arg.throttles.6.1, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.starts.0, ptr %arg.starts.1, i64 %arg.starts.5.1, i64 %arg.starts.3, ptr %.1018, i64 %arg.starts.5.1, i64 %arg.starts.6.1, double %arg.step, ptr %arg.figures.0, ptr %arg.figures.1, i64 %arg.figures.5.1, i64 %arg.figures.3, ptr %lsr.iv10, i64 %arg.figures.5.1, i64 %arg.figures.6.1, ptr %arg.states.0, ptr %arg.states.1, i64 %.1168, i64 %arg.states.3, ptr %lsr.iv8, i64 %arg.states.5.1, i64 %arg.states.5.2, i64 %arg.states.6.1, i64 %arg.states.6.2, ptr %arg.kept.0, ptr %arg.kept.1, i64 %.1257, i64 %arg.kept.3, ptr %lsr.iv, i64 %arg.kept.5.1, i64 %arg.kept.5.2, i64 %arg.kept.6.1, i64 %arg.kept.6.2, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.2, i64 %arg.work.3, ptr %arg.work.4, i64 %arg.work.5.0, i64 %arg.work.5.1, i64 %arg.work.6.0, i64 %arg.work.6.1)
  %cond = icmp eq i32 %.1356, 0
  br i1 %cond, label %B58.endif, label %B58.if.if

common.ret:
  %common.ret.op = phi i32 [ 0, %B304 ], [ %.1356, %B58.if.if ]
  ret i32 %common.ret.op

B304:
  store ptr null, ptr %retptr, align 8
  br label %common.ret

B58.endif:
  %scevgep = getelementptr i8, ptr %lsr.iv, i64 %0
  %scevgep9 = getelementptr i8, ptr %lsr.iv8, i64 %1
  %scevgep11 = getelementptr i8, ptr %lsr.iv10, i64 %2
  %scevgep14 = getelementptr i8, ptr %lsr.iv13, i64 %3
  %lsr.iv.next = add i64 %lsr.iv18, -1
  %exitcond.not = icmp eq i64 %lsr.iv.next, 0
  br i1 %exitcond.not, label %B304, label %B58

B58.if.if:
  %.1364 = icmp sgt i32 %.1356, 0
  %.1357 = load ptr, ptr %excinfo.1, align 8
  %.1365 = select i1 %.1364, ptr %.1357, ptr undef
  store ptr %.1365, ptr %excinfo, align 8
  br label %common.ret
}

define internal i32 @_run_row(ptr noalias %retptr, ptr noalias %excinfo, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, ptr %arg.forces.0, ptr %arg.forces.1, i64 %arg.forces.2, i64 %arg.forces.3, ptr %arg.forces.4, i64 %arg.forces.5.0, i64 %arg.forces.6.0, ptr %arg.throttles.0, ptr %arg.throttles.1, i64 %arg.throttles.2, i64 %arg.throttles.3, ptr %arg.throttles.4, i64 %arg.throttles.5.0, i64 %arg.throttles.6.0, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.start.0, ptr %arg.start.1, i64 %arg.start.2, i64 %arg.start.3, ptr %arg.start.4, i64 %arg.start.5.0, i64 %arg.start.6.0, double %arg.step, ptr %arg.g.0, ptr %arg.g.1, i64 %arg.g.2, i64 %arg.g.3, ptr %arg.g.4, i64 %arg.g.5.0, i64 %arg.g.6.0, ptr %arg.states.0, ptr %arg.states.1, i64 %arg.states.2, i64 %arg.states.3, ptr %arg.states.4, i64 %arg.states.5.0, i64 %arg.states.5.1, i64 %arg.states.6.0, i64 %arg.states.6.1, ptr %arg.kept.0, ptr %arg.kept.1, i64 %arg.kept.2, i64 %arg.kept.3, ptr %arg.kept.4, i64 %arg.kept.5.0, i64 %arg.kept.5.1, i64 %arg.kept.6.0, i64 %arg.kept.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.2, i64 %arg.work.3, ptr %arg.work.4, i64 %arg.work.5.0, i64 %arg.work.5.1, i64 %arg.work.6.0, i64 %arg.work.6.1) {
B0.else.if:
  %.1930 = alloca double, align 8
  store double 0.000000e+00, ptr %.1930, align 8
  %excinfo.1 = alloca ptr, align 8
  store ptr null, ptr %excinfo.1, align 8
  %.2002 = alloca ptr, align 8
  store ptr null, ptr %.2002, align 8
  %excinfo.2 = alloca ptr, align 8
  store ptr null, ptr %excinfo.2, align 8
  %.2184 = alloca ptr, align 8
  store ptr null, ptr %.2184, align 8
  %excinfo.3 = alloca ptr, align 8
  store ptr null, ptr %excinfo.3, align 8
  %.2524 = alloca double, align 8
  store double 0.000000e+00, ptr %.2524, align 8
  %excinfo.4 = alloca ptr, align 8
  store ptr null, ptr %excinfo.4, align 8
  %.2875 = alloca double, align 8
  store double 0.000000e+00, ptr %.2875, align 8
  %excinfo.5 = alloca ptr, align 8
  store ptr null, ptr %excinfo.5, align 8
  %.3227 = alloca double, align 8
  store double 0.000000e+00, ptr %.3227, align 8
  %excinfo.6 = alloca ptr, align 8
  store ptr null, ptr %excinfo.6, align 8
  %.264 = add nsw i64 %arg.forces.5.0, -1
  %.272.1 = ashr i64 %.264, 1
  %.435 = getelementptr double, ptr %arg.work.4, i64 %arg.work.5.1
  %.505.idx = shl i64 %arg.work.5.1, 4
  %.505 = getelementptr i8, ptr %arg.work.4, i64 %.505.idx
  %.575.idx = mul i64 %arg.work.5.1, 24
  %.575 = getelementptr i8, ptr %arg.work.4, i64 %.575.idx
  %.645.idx = shl i64 %arg.work.5.1, 5
  %.645 = getelementptr i8, ptr %arg.work.4, i64 %.645.idx
  %.715.idx = mul i64 %arg.work.5.1, 40
  %.715 = getelementptr i8, ptr %arg.work.4, i64 %.715.idx
  %.785.idx = mul i64 %arg.work.5.1, 48
  %.785 = getelementptr i8, ptr %arg.work.4, i64 %.785.idx
  %.855.idx = mul i64 %arg.work.5.1, 56
  %.855 = getelementptr i8, ptr %arg.work.4, i64 %.855.idx
  %.1367 = icmp slt i64 %arg.g.5.0, 1
  br i1 %.1367, label %.1434.endif.endif, label %.1433.endif.preheader

B408:
  %lsr.iv = phi i64 [ %lsr.iv.next, %B408.backedge ], [ 16, %B408.lr.ph ]
  %over.2.01920 = phi i1 [ %over.2.01920.be, %B408.backedge ], [ false, %B408.lr.ph ]
  %.181518281918 = phi i64 [ %2, %B408.backedge ], [ 0, %B408.lr.ph ]
  %0 = add i64 %.181518281918, 1
  %scevgep102 = getelementptr i8, ptr %arg.forces.4, i64 %lsr.iv
  %scevgep103 = getelementptr i8, ptr %scevgep102, i64 -16
  %.1886 = load double, ptr %scevgep103, align 8
  %scevgep97 = getelementptr i8, ptr %arg.throttles.4, i64 %lsr.iv
  %scevgep98 = getelementptr i8, ptr %scevgep97, i64 -16
  %.1917 = load double, ptr %scevgep98, align 8
  store double 0.000000e+00, ptr %.1930, align 8
  %.1968 = call i32 @rates(ptr nonnull %.1930, ptr nonnull %excinfo.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr nonnull %arg.work.4, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.505, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %.1886, double %.1917, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.785, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.855, i64 %arg.work.5.1, i64 %arg.work.6.1)
  %.1978 = load double, ptr %.1930, align 8
  %cond15 = icmp eq i32 %.1968, 0
  br i1 %cond15, label %B408.endif, label %B408.if.if

B504:
  %.2022 = call i32 @_keep(ptr nonnull %.2002, ptr nonnull %excinfo.2, ptr %arg.kept.0, ptr %arg.kept.1, i64 %arg.kept.2, i64 %arg.kept.3, ptr %arg.kept.4, i64 %arg.kept.5.0, i64 %arg.kept.5.1, i64 %arg.kept.6.0, i64 %arg.kept.6.1, ptr %arg.states.0, ptr %arg.states.1, i64 %arg.states.2, i64 %arg.states.3, ptr %arg.states.4, i64 %arg.states.5.0, i64 %arg.states.5.1, i64 %arg.states.6.0, i64 %arg.states.6.1, i64 %.181518281918, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr nonnull %arg.work.4, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, double %.1978, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.785, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.855, i64 %arg.work.5.1, i64 %arg.work.6.1)
  %cond = icmp eq i32 %.2022, 0
  br i1 %cond, label %B548, label %B504.if.if

B548:
  %1 = icmp sgt i64 %arg.states.5.1, 1
  %.2049 = icmp ne i64 %.272.1, %.181518281918
  %over.2.0.not = xor i1 %over.2.01920, true
  %brmerge = or i1 %1, %over.2.0.not
  %or.cond = and i1 %brmerge, %.2049
  br i1 %or.cond, label %B574, label %B568

B568:
  br label %B1690

B574:
  %.2198 = call i32 @_watch(ptr nonnull %.2184, ptr nonnull %excinfo.3, ptr %arg.g.0, ptr %arg.g.1, i64 %arg.g.2, i64 %arg.g.3, ptr %arg.g.4, i64 %arg.g.5.0, i64 %arg.g.6.0, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr nonnull %arg.work.4, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, double %arg.step, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.785, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.855, i64 %arg.work.5.1, i64 %arg.work.6.1)
  %cond16 = icmp eq i32 %.2198, 0
  br i1 %cond16, label %B574.endif, label %B574.if.if

B718:
  %.2377 = load double, ptr %arg.work.4, align 8
  %.2409 = load double, ptr %.505, align 8
  %.2410 = fmul double %.2379, %.2409
  %.2411 = fadd double %.2377, %.2410
  %sunkaddr88 = mul i64 %arg.work.5.1, 8
  %sunkaddr89 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr88
  store double %.2411, ptr %sunkaddr89, align 8
  %sunkaddr90 = getelementptr i8, ptr %arg.work.4, i64 8
  %.2377.1 = load double, ptr %sunkaddr90, align 8
  %sunkaddr91 = getelementptr i8, ptr %.505, i64 8
  %.2409.1 = load double, ptr %sunkaddr91, align 8
  %.2410.1 = fmul double %.2379, %.2409.1
  %.2411.1 = fadd double %.2377.1, %.2410.1
  %sunkaddr92 = mul i64 %arg.work.5.1, 8
  %sunkaddr93 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr92
  %sunkaddr94 = getelementptr i8, ptr %sunkaddr93, i64 8
  store double %.2411.1, ptr %sunkaddr94, align 8
  %sunkaddr95 = getelementptr i8, ptr %arg.work.4, i64 16
  %.2377.2 = load double, ptr %sunkaddr95, align 8
  %sunkaddr96 = getelementptr i8, ptr %.505, i64 16
  %.2409.2 = load double, ptr %sunkaddr96, align 8
  %.2410.2 = fmul double %.2379, %.2409.2
  %.2411.2 = fadd double %.2377.2, %.2410.2
  %sunkaddr97 = mul i64 %arg.work.5.1, 8
  %sunkaddr98 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr97
  %sunkaddr99 = getelementptr i8, ptr %sunkaddr98, i64 16
  store double %.2411.2, ptr %sunkaddr99, align 8
  %sunkaddr100 = getelementptr i8, ptr %arg.work.4, i64 24
  %.2377.3 = load double, ptr %sunkaddr100, align 8
  %sunkaddr101 = getelementptr i8, ptr %.505, i64 24
  %.2409.3 = load double, ptr %sunkaddr101, align 8
  %.2410.3 = fmul double %.2379, %.2409.3
  %.2411.3 = fadd double %.2377.3, %.2410.3
  %sunkaddr102 = mul i64 %arg.work.5.1, 8
  %sunkaddr103 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr102
  %sunkaddr104 = getelementptr i8, ptr %sunkaddr103, i64 24
  store double %.2411.3, ptr %sunkaddr104, align 8
  %sunkaddr106 = getelementptr i8, ptr %arg.work.4, i64 32
  %.2377.4 = load double, ptr %sunkaddr106, align 8
  %sunkaddr108 = getelementptr i8, ptr %.505, i64 32
  %.2409.4 = load double, ptr %sunkaddr108, align 8
  %.2410.4 = fmul double %.2379, %.2409.4
  %.2411.4 = fadd double %.2377.4, %.2410.4
  %sunkaddr109 = mul i64 %arg.work.5.1, 8
  %sunkaddr111 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr109
  %sunkaddr113 = getelementptr i8, ptr %sunkaddr111, i64 32
  store double %.2411.4, ptr %sunkaddr113, align 8
  %sunkaddr114 = getelementptr i8, ptr %arg.work.4, i64 40
  %.2377.5 = load double, ptr %sunkaddr114, align 8
  %sunkaddr116 = getelementptr i8, ptr %.505, i64 40
  %.2409.5 = load double, ptr %sunkaddr116, align 8
  %.2410.5 = fmul double %.2379, %.2409.5
  %.2411.5 = fadd double %.2377.5, %.2410.5
  %sunkaddr118 = mul i64 %arg.work.5.1, 8
  %sunkaddr119 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr118
  %sunkaddr121 = getelementptr i8, ptr %sunkaddr119, i64 40
  store double %.2411.5, ptr %sunkaddr121, align 8
  %sunkaddr123 = getelementptr i8, ptr %arg.work.4, i64 48
  %.2377.6 = load double, ptr %sunkaddr123, align 8
  %sunkaddr124 = getelementptr i8, ptr %.505, i64 48
  %.2409.6 = load double, ptr %sunkaddr124, align 8
  %.2410.6 = fmul double %.2379, %.2409.6
  %.2411.6 = fadd double %.2377.6, %.2410.6
  %sunkaddr126 = mul i64 %arg.work.5.1, 8
  %sunkaddr128 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr126
  %sunkaddr129 = getelementptr i8, ptr %sunkaddr128, i64 48
  store double %.2411.6, ptr %sunkaddr129, align 8
  %sunkaddr131 = getelementptr i8, ptr %arg.work.4, i64 56
  %.2377.7 = load double, ptr %sunkaddr131, align 8
  %sunkaddr133 = getelementptr i8, ptr %.505, i64 56
  %.2409.7 = load double, ptr %sunkaddr133, align 8
  %.2410.7 = fmul double %.2379, %.2409.7
  %.2411.7 = fadd double %.2377.7, %.2410.7
  %sunkaddr134 = mul i64 %arg.work.5.1, 8
  %sunkaddr136 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr134
  %sunkaddr138 = getelementptr i8, ptr %sunkaddr136, i64 56
  store double %.2411.7, ptr %sunkaddr138, align 8
  %sunkaddr139 = getelementptr i8, ptr %arg.work.4, i64 64
  %.2377.8 = load double, ptr %sunkaddr139, align 8
  %sunkaddr141 = getelementptr i8, ptr %.505, i64 64
  %.2409.8 = load double, ptr %sunkaddr141, align 8
  %.2410.8 = fmul double %.2379, %.2409.8
  %.2411.8 = fadd double %.2377.8, %.2410.8
  %sunkaddr143 = mul i64 %arg.work.5.1, 8
  %sunkaddr144 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr143
  %sunkaddr146 = getelementptr i8, ptr %sunkaddr144, i64 64
  store double %.2411.8, ptr %sunkaddr146, align 8
  %sunkaddr148 = getelementptr i8, ptr %arg.work.4, i64 72
  %.2377.9 = load double, ptr %sunkaddr148, align 8
  %sunkaddr149 = getelementptr i8, ptr %.505, i64 72
  %.2409.9 = load double, ptr %sunkaddr149, align 8
  %.2410.9 = fmul double %.2379, %.2409.9
  %.2411.9 = fadd double %.2377.9, %.2410.9
  %sunkaddr151 = mul i64 %arg.work.5.1, 8
  %sunkaddr153 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr151
  %sunkaddr154 = getelementptr i8, ptr %sunkaddr153, i64 72
  store double %.2411.9, ptr %sunkaddr154, align 8
  %sunkaddr156 = getelementptr i8, ptr %arg.work.4, i64 80
  %.2377.10 = load double, ptr %sunkaddr156, align 8
  %sunkaddr158 = getelementptr i8, ptr %.505, i64 80
  %.2409.10 = load double, ptr %sunkaddr158, align 8
  %.2410.10 = fmul double %.2379, %.2409.10
  %.2411.10 = fadd double %.2377.10, %.2410.10
  %sunkaddr159 = mul i64 %arg.work.5.1, 8
  %sunkaddr161 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr159
  %sunkaddr163 = getelementptr i8, ptr %sunkaddr161, i64 80
  store double %.2411.10, ptr %sunkaddr163, align 8
  %sunkaddr164 = getelementptr i8, ptr %arg.work.4, i64 88
  %.2377.11 = load double, ptr %sunkaddr164, align 8
  %sunkaddr166 = getelementptr i8, ptr %.505, i64 88
  %.2409.11 = load double, ptr %sunkaddr166, align 8
  %.2410.11 = fmul double %.2379, %.2409.11
  %.2411.11 = fadd double %.2377.11, %.2410.11
  %sunkaddr168 = mul i64 %arg.work.5.1, 8
  %sunkaddr169 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr168
  %sunkaddr171 = getelementptr i8, ptr %sunkaddr169, i64 88
  store double %.2411.11, ptr %sunkaddr171, align 8
  %sunkaddr172 = getelementptr i8, ptr %arg.work.4, i64 96
  %.2377.12 = load double, ptr %sunkaddr172, align 8
  %sunkaddr173 = getelementptr i8, ptr %.505, i64 96
  %.2409.12 = load double, ptr %sunkaddr173, align 8
  %.2410.12 = fmul double %.2379, %.2409.12
  %.2411.12 = fadd double %.2377.12, %.2410.12
  %sunkaddr175 = mul i64 %arg.work.5.1, 8
  %sunkaddr176 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr175
  %sunkaddr177 = getelementptr i8, ptr %sunkaddr176, i64 96
  store double %.2411.12, ptr %sunkaddr177, align 8
  %sunkaddr178 = getelementptr i8, ptr %arg.work.4, i64 104
  %.2377.13 = load double, ptr %sunkaddr178, align 8
  %sunkaddr180 = getelementptr i8, ptr %.505, i64 104
  %.2409.13 = load double, ptr %sunkaddr180, align 8
  %.2410.13 = fmul double %.2379, %.2409.13
  %.2411.13 = fadd double %.2377.13, %.2410.13
  %sunkaddr181 = mul i64 %arg.work.5.1, 8
  %sunkaddr182 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr181
  %sunkaddr183 = getelementptr i8, ptr %sunkaddr182, i64 104
  store double %.2411.13, ptr %sunkaddr183, align 8
  %scevgep86 = getelementptr i8, ptr %arg.forces.4, i64 %lsr.iv
  %scevgep87 = getelementptr i8, ptr %scevgep86, i64 -8
  %.2479 = load double, ptr %scevgep87, align 8
  %scevgep = getelementptr i8, ptr %arg.throttles.4, i64 %lsr.iv
  %scevgep85 = getelementptr i8, ptr %scevgep, i64 -8
  %.2511 = load double, ptr %scevgep85, align 8
  store double 0.000000e+00, ptr %.2524, align 8
  %.2562 = call i32 @rates(ptr nonnull %.2524, ptr nonnull %excinfo.4, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr nonnull %.435, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.575, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %.2479, double %.2511, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.785, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.855, i64 %arg.work.5.1, i64 %arg.work.6.1)
  %cond17 = icmp eq i32 %.2562, 0
  br i1 %cond17, label %B908, label %B718.if.if

B908:
  %.2728 = load double, ptr %arg.work.4, align 8
  %.2760 = load double, ptr %.575, align 8
  %.2761 = fmul double %.2379, %.2760
  %.2762 = fadd double %.2728, %.2761
  %sunkaddr185 = mul i64 %arg.work.5.1, 8
  %sunkaddr186 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr185
  store double %.2762, ptr %sunkaddr186, align 8
  %sunkaddr187 = getelementptr i8, ptr %arg.work.4, i64 8
  %.2728.1 = load double, ptr %sunkaddr187, align 8
  %sunkaddr188 = getelementptr i8, ptr %.575, i64 8
  %.2760.1 = load double, ptr %sunkaddr188, align 8
  %.2761.1 = fmul double %.2379, %.2760.1
  %.2762.1 = fadd double %.2728.1, %.2761.1
  %sunkaddr190 = mul i64 %arg.work.5.1, 8
  %sunkaddr191 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr190
  %sunkaddr192 = getelementptr i8, ptr %sunkaddr191, i64 8
  store double %.2762.1, ptr %sunkaddr192, align 8
  %sunkaddr193 = getelementptr i8, ptr %arg.work.4, i64 16
  %.2728.2 = load double, ptr %sunkaddr193, align 8
  %sunkaddr195 = getelementptr i8, ptr %.575, i64 16
  %.2760.2 = load double, ptr %sunkaddr195, align 8
  %.2761.2 = fmul double %.2379, %.2760.2
  %.2762.2 = fadd double %.2728.2, %.2761.2
  %sunkaddr196 = mul i64 %arg.work.5.1, 8
  %sunkaddr197 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr196
  %sunkaddr198 = getelementptr i8, ptr %sunkaddr197, i64 16
  store double %.2762.2, ptr %sunkaddr198, align 8
  %sunkaddr200 = getelementptr i8, ptr %arg.work.4, i64 24
  %.2728.3 = load double, ptr %sunkaddr200, align 8
  %sunkaddr201 = getelementptr i8, ptr %.575, i64 24
  %.2760.3 = load double, ptr %sunkaddr201, align 8
  %.2761.3 = fmul double %.2379, %.2760.3
  %.2762.3 = fadd double %.2728.3, %.2761.3
  %sunkaddr202 = mul i64 %arg.work.5.1, 8
  %sunkaddr203 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr202
  %sunkaddr205 = getelementptr i8, ptr %sunkaddr203, i64 24
  store double %.2762.3, ptr %sunkaddr205, align 8
  %sunkaddr206 = getelementptr i8, ptr %arg.work.4, i64 32
  %.2728.4 = load double, ptr %sunkaddr206, align 8
  %sunkaddr207 = getelementptr i8, ptr %.575, i64 32
  %.2760.4 = load double, ptr %sunkaddr207, align 8
  %.2761.4 = fmul double %.2379, %.2760.4
  %.2762.4 = fadd double %.2728.4, %.2761.4
  %sunkaddr208 = mul i64 %arg.work.5.1, 8
  %sunkaddr210 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr208
  %sunkaddr211 = getelementptr i8, ptr %sunkaddr210, i64 32
  store double %.2762.4, ptr %sunkaddr211, align 8
  %sunkaddr212 = getelementptr i8, ptr %arg.work.4, i64 40
  %.2728.5 = load double, ptr %sunkaddr212, align 8
  %sunkaddr213 = getelementptr i8, ptr %.575, i64 40
  %.2760.5 = load double, ptr %sunkaddr213, align 8
  %.2761.5 = fmul double %.2379, %.2760.5
  %.2762.5 = fadd double %.2728.5, %.2761.5
  %sunkaddr215 = mul i64 %arg.work.5.1, 8
  %sunkaddr216 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr215
  %sunkaddr217 = getelementptr i8, ptr %sunkaddr216, i64 40
  store double %.2762.5, ptr %sunkaddr217, align 8
  %sunkaddr218 = getelementptr i8, ptr %arg.work.4, i64 48
  %.2728.6 = load double, ptr %sunkaddr218, align 8
  %sunkaddr220 = getelementptr i8, ptr %.575, i64 48
  %.2760.6 = load double, ptr %sunkaddr220, align 8
  %.2761.6 = fmul double %.2379, %.2760.6
  %.2762.6 = fadd double %.2728.6, %.2761.6
  %sunkaddr221 = mul i64 %arg.work.5.1, 8
  %sunkaddr222 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr221
  %sunkaddr223 = getelementptr i8, ptr %sunkaddr222, i64 48
  store double %.2762.6, ptr %sunkaddr223, align 8
  %sunkaddr225 = getelementptr i8, ptr %arg.work.4, i64 56
  %.2728.7 = load double, ptr %sunkaddr225, align 8
  %sunkaddr226 = getelementptr i8, ptr %.575, i64 56
  %.2760.7 = load double, ptr %sunkaddr226, align 8
  %.2761.7 = fmul double %.2379, %.2760.7
  %.2762.7 = fadd double %.2728.7, %.2761.7
  %sunkaddr227 = mul i64 %arg.work.5.1, 8
  %sunkaddr228 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr227
  %sunkaddr230 = getelementptr i8, ptr %sunkaddr228, i64 56
  store double %.2762.7, ptr %sunkaddr230, align 8
  %sunkaddr231 = getelementptr i8, ptr %arg.work.4, i64 64
  %.2728.8 = load double, ptr %sunkaddr231, align 8
  %sunkaddr232 = getelementptr i8, ptr %.575, i64 64
  %.2760.8 = load double, ptr %sunkaddr232, align 8
  %.2761.8 = fmul double %.2379, %.2760.8
  %.2762.8 = fadd double %.2728.8, %.2761.8
  %sunkaddr233 = mul i64 %arg.work.5.1, 8
  %sunkaddr235 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr233
  %sunkaddr236 = getelementptr i8, ptr %sunkaddr235, i64 64
  store double %.2762.8, ptr %sunkaddr236, align 8
  %sunkaddr237 = getelementptr i8, ptr %arg.work.4, i64 72
  %.2728.9 = load double, ptr %sunkaddr237, align 8
  %sunkaddr238 = getelementptr i8, ptr %.575, i64 72
  %.2760.9 = load double, ptr %sunkaddr238, align 8
  %.2761.9 = fmul double %.2379, %.2760.9
  %.2762.9 = fadd double %.2728.9, %.2761.9
  %sunkaddr239 = mul i64 %arg.work.5.1, 8
  %sunkaddr240 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr239
  %sunkaddr241 = getelementptr i8, ptr %sunkaddr240, i64 72
  store double %.2762.9, ptr %sunkaddr241, align 8
  %sunkaddr242 = getelementptr i8, ptr %arg.work.4, i64 80
  %.2728.10 = load double, ptr %sunkaddr242, align 8
  %sunkaddr243 = getelementptr i8, ptr %.575, i64 80
  %.2760.10 = load double, ptr %sunkaddr243, align 8
  %.2761.10 = fmul double %.2379, %.2760.10
  %.2762.10 = fadd double %.2728.10, %.2761.10
  %sunkaddr244 = mul i64 %arg.work.5.1, 8
  %sunkaddr246 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr244
  %sunkaddr247 = getelementptr i8, ptr %sunkaddr246, i64 80
  store double %.2762.10, ptr %sunkaddr247, align 8
  %sunkaddr248 = getelementptr i8, ptr %arg.work.4, i64 88
  %.2728.11 = load double, ptr %sunkaddr248, align 8
  %sunkaddr249 = getelementptr i8, ptr %.575, i64 88
  %.2760.11 = load double, ptr %sunkaddr249, align 8
  %.2761.11 = fmul double %.2379, %.2760.11
  %.2762.11 = fadd double %.2728.11, %.2761.11
  %sunkaddr251 = mul i64 %arg.work.5.1, 8
  %sunkaddr252 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr251
  %sunkaddr253 = getelementptr i8, ptr %sunkaddr252, i64 88
  store double %.2762.11, ptr %sunkaddr253, align 8
  %sunkaddr254 = getelementptr i8, ptr %arg.work.4, i64 96
  %.2728.12 = load double, ptr %sunkaddr254, align 8
  %sunkaddr256 = getelementptr i8, ptr %.575, i64 96
  %.2760.12 = load double, ptr %sunkaddr256, align 8
  %.2761.12 = fmul double %.2379, %.2760.12
  %.2762.12 = fadd double %.2728.12, %.2761.12
  %sunkaddr257 = mul i64 %arg.work.5.1, 8
  %sunkaddr258 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr257
  %sunkaddr259 = getelementptr i8, ptr %sunkaddr258, i64 96
  store double %.2762.12, ptr %sunkaddr259, align 8
  %sunkaddr261 = getelementptr i8, ptr %arg.work.4, i64 104
  %.2728.13 = load double, ptr %sunkaddr261, align 8
  %sunkaddr262 = getelementptr i8, ptr %.575, i64 104
  %.2760.13 = load double, ptr %sunkaddr262, align 8
  %.2761.13 = fmul double %.2379, %.2760.13
  %.2762.13 = fadd double %.2728.13, %.2761.13
  %sunkaddr263 = mul i64 %arg.work.5.1, 8
  %sunkaddr264 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr263
  %sunkaddr266 = getelementptr i8, ptr %sunkaddr264, i64 104
  store double %.2762.13, ptr %sunkaddr266, align 8
  %sunkaddr267 = getelementptr i8, ptr %arg.forces.4, i64 %lsr.iv
  %sunkaddr268 = getelementptr i8, ptr %sunkaddr267, i64 -8
  %.2830 = load double, ptr %sunkaddr268, align 8
  %sunkaddr269 = getelementptr i8, ptr %arg.throttles.4, i64 %lsr.iv
  %sunkaddr271 = getelementptr i8, ptr %sunkaddr269, i64 -8
  %.2862 = load double, ptr %sunkaddr271, align 8
  store double 0.000000e+00, ptr %.2875, align 8
  %.2913 = call i32 @rates(ptr nonnull %.2875, ptr nonnull %excinfo.5, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr nonnull %.435, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.645, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %.2830, double %.2862, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.785, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.855, i64 %arg.work.5.1, i64 %arg.work.6.1)
  %cond18 = icmp eq i32 %.2913, 0
  br i1 %cond18, label %B1092, label %B908.if.if

B1092:
  %.3079 = load double, ptr %arg.work.4, align 8
  %.3109 = load double, ptr %.645, align 8
  %.3111 = fmul double %arg.step, %.3109
  %.3112 = fadd double %.3079, %.3111
  %sunkaddr272 = mul i64 %arg.work.5.1, 8
  %sunkaddr273 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr272
  store double %.3112, ptr %sunkaddr273, align 8
  %sunkaddr274 = getelementptr i8, ptr %arg.work.4, i64 8
  %.3079.1 = load double, ptr %sunkaddr274, align 8
  %sunkaddr276 = getelementptr i8, ptr %.645, i64 8
  %.3109.1 = load double, ptr %sunkaddr276, align 8
  %.3111.1 = fmul double %arg.step, %.3109.1
  %.3112.1 = fadd double %.3079.1, %.3111.1
  %sunkaddr277 = mul i64 %arg.work.5.1, 8
  %sunkaddr278 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr277
  %sunkaddr279 = getelementptr i8, ptr %sunkaddr278, i64 8
  store double %.3112.1, ptr %sunkaddr279, align 8
  %sunkaddr281 = getelementptr i8, ptr %arg.work.4, i64 16
  %.3079.2 = load double, ptr %sunkaddr281, align 8
  %sunkaddr282 = getelementptr i8, ptr %.645, i64 16
  %.3109.2 = load double, ptr %sunkaddr282, align 8
  %.3111.2 = fmul double %arg.step, %.3109.2
  %.3112.2 = fadd double %.3079.2, %.3111.2
  %sunkaddr283 = mul i64 %arg.work.5.1, 8
  %sunkaddr284 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr283
  %sunkaddr286 = getelementptr i8, ptr %sunkaddr284, i64 16
  store double %.3112.2, ptr %sunkaddr286, align 8
  %sunkaddr287 = getelementptr i8, ptr %arg.work.4, i64 24
  %.3079.3 = load double, ptr %sunkaddr287, align 8
  %sunkaddr288 = getelementptr i8, ptr %.645, i64 24
  %.3109.3 = load double, ptr %sunkaddr288, align 8
  %.3111.3 = fmul double %arg.step, %.3109.3
  %.3112.3 = fadd double %.3079.3, %.3111.3
  %sunkaddr289 = mul i64 %arg.work.5.1, 8
  %sunkaddr291 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr289
  %sunkaddr292 = getelementptr i8, ptr %sunkaddr291, i64 24
  store double %.3112.3, ptr %sunkaddr292, align 8
  %sunkaddr293 = getelementptr i8, ptr %arg.work.4, i64 32
  %.3079.4 = load double, ptr %sunkaddr293, align 8
  %sunkaddr294 = getelementptr i8, ptr %.645, i64 32
  %.3109.4 = load double, ptr %sunkaddr294, align 8
  %.3111.4 = fmul double %arg.step, %.3109.4
  %.3112.4 = fadd double %.3079.4, %.3111.4
  %sunkaddr296 = mul i64 %arg.work.5.1, 8
  %sunkaddr297 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr296
  %sunkaddr298 = getelementptr i8, ptr %sunkaddr297, i64 32
  store double %.3112.4, ptr %sunkaddr298, align 8
  %sunkaddr299 = getelementptr i8, ptr %arg.work.4, i64 40
  %.3079.5 = load double, ptr %sunkaddr299, align 8
  %sunkaddr301 = getelementptr i8, ptr %.645, i64 40
  %.3109.5 = load double, ptr %sunkaddr301, align 8
  %.3111.5 = fmul double %arg.step, %.3109.5
  %.3112.5 = fadd double %.3079.5, %.3111.5
  %sunkaddr302 = mul i64 %arg.work.5.1, 8
  %sunkaddr303 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr302
  %sunkaddr304 = getelementptr i8, ptr %sunkaddr303, i64 40
  store double %.3112.5, ptr %sunkaddr304, align 8
  %sunkaddr306 = getelementptr i8, ptr %arg.work.4, i64 48
  %.3079.6 = load double, ptr %sunkaddr306, align 8
  %sunkaddr307 = getelementptr i8, ptr %.645, i64 48
  %.3109.6 = load double, ptr %sunkaddr307, align 8
  %.3111.6 = fmul double %arg.step, %.3109.6
  %.3112.6 = fadd double %.3079.6, %.3111.6
  %sunkaddr308 = mul i64 %arg.work.5.1, 8
  %sunkaddr309 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr308
  %sunkaddr310 = getelementptr i8, ptr %sunkaddr309, i64 48
  store double %.3112.6, ptr %sunkaddr310, align 8
  %sunkaddr311 = getelementptr i8, ptr %arg.work.4, i64 56
  %.3079.7 = load double, ptr %sunkaddr311, align 8
  %sunkaddr312 = getelementptr i8, ptr %.645, i64 56
  %.3109.7 = load double, ptr %sunkaddr312, align 8
  %.3111.7 = fmul double %arg.step, %.3109.7
  %.3112.7 = fadd double %.3079.7, %.3111.7
  %sunkaddr314 = mul i64 %arg.work.5.1, 8
  %sunkaddr315 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr314
  %sunkaddr316 = getelementptr i8, ptr %sunkaddr315, i64 56
  store double %.3112.7, ptr %sunkaddr316, align 8
  %sunkaddr317 = getelementptr i8, ptr %arg.work.4, i64 64
  %.3079.8 = load double, ptr %sunkaddr317, align 8
  %sunkaddr319 = getelementptr i8, ptr %.645, i64 64
  %.3109.8 = load double, ptr %sunkaddr319, align 8
  %.3111.8 = fmul double %arg.step, %.3109.8
  %.3112.8 = fadd double %.3079.8, %.3111.8
  %sunkaddr320 = mul i64 %arg.work.5.1, 8
  %sunkaddr321 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr320
  %sunkaddr322 = getelementptr i8, ptr %sunkaddr321, i64 64
  store double %.3112.8, ptr %sunkaddr322, align 8
  %sunkaddr324 = getelementptr i8, ptr %arg.work.4, i64 72
  %.3079.9 = load double, ptr %sunkaddr324, align 8
  %sunkaddr325 = getelementptr i8, ptr %.645, i64 72
  %.3109.9 = load double, ptr %sunkaddr325, align 8
  %.3111.9 = fmul double %arg.step, %.3109.9
  %.3112.9 = fadd double %.3079.9, %.3111.9
  %sunkaddr326 = mul i64 %arg.work.5.1, 8
  %sunkaddr327 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr326
  %sunkaddr329 = getelementptr i8, ptr %sunkaddr327, i64 72
  store double %.3112.9, ptr %sunkaddr329, align 8
  %sunkaddr330 = getelementptr i8, ptr %arg.work.4, i64 80
  %.3079.10 = load double, ptr %sunkaddr330, align 8
  %sunkaddr331 = getelementptr i8, ptr %.645, i64 80
  %.3109.10 = load double, ptr %sunkaddr331, align 8
  %.3111.10 = fmul double %arg.step, %.3109.10
  %.3112.10 = fadd double %.3079.10, %.3111.10
  %sunkaddr332 = mul i64 %arg.work.5.1, 8
  %sunkaddr334 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr332
  %sunkaddr335 = getelementptr i8, ptr %sunkaddr334, i64 80
  store double %.3112.10, ptr %sunkaddr335, align 8
  %sunkaddr336 = getelementptr i8, ptr %arg.work.4, i64 88
  %.3079.11 = load double, ptr %sunkaddr336, align 8
  %sunkaddr337 = getelementptr i8, ptr %.645, i64 88
  %.3109.11 = load double, ptr %sunkaddr337, align 8
  %.3111.11 = fmul double %arg.step, %.3109.11
  %.3112.11 = fadd double %.3079.11, %.3111.11
  %sunkaddr339 = mul i64 %arg.work.5.1, 8
  %sunkaddr340 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr339
  %sunkaddr341 = getelementptr i8, ptr %sunkaddr340, i64 88
  store double %.3112.11, ptr %sunkaddr341, align 8
  %sunkaddr342 = getelementptr i8, ptr %arg.work.4, i64 96
  %.3079.12 = load double, ptr %sunkaddr342, align 8
  %sunkaddr344 = getelementptr i8, ptr %.645, i64 96
  %.3109.12 = load double, ptr %sunkaddr344, align 8
  %.3111.12 = fmul double %arg.step, %.3109.12
  %.3112.12 = fadd double %.3079.12, %.3111.12
  %sunkaddr345 = mul i64 %arg.work.5.1, 8
  %sunkaddr346 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr345
  %sunkaddr347 = getelementptr i8, ptr %sunkaddr346, i64 96
  store double %.3112.12, ptr %sunkaddr347, align 8
  %sunkaddr349 = getelementptr i8, ptr %arg.work.4, i64 104
  %.3079.13 = load double, ptr %sunkaddr349, align 8
  %sunkaddr350 = getelementptr i8, ptr %.645, i64 104
  %.3109.13 = load double, ptr %sunkaddr350, align 8
  %.3111.13 = fmul double %arg.step, %.3109.13
  %.3112.13 = fadd double %.3079.13, %.3111.13
  %sunkaddr351 = mul i64 %arg.work.5.1, 8
  %sunkaddr352 = getelementptr i8, ptr %arg.work.4, i64 %sunkaddr351
  %sunkaddr354 = getelementptr i8, ptr %sunkaddr352, i64 104
  store double %.3112.13, ptr %sunkaddr354, align 8
  %sunkaddr = getelementptr i8, ptr %arg.forces.4, i64 %lsr.iv
  %.3180 = load double, ptr %sunkaddr, align 8
  %sunkaddr355 = getelementptr i8, ptr %arg.throttles.4, i64 %lsr.iv
  %.3214 = load double, ptr %sunkaddr355, align 8
  store double 0.000000e+00, ptr %.3227, align 8
  %.3265 = call i32 @rates(ptr nonnull %.3227, ptr nonnull %excinfo.6, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr nonnull %.435, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.715, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %.3180, double %.3214, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.785, i64 %arg.work.5.1, i64 %arg.work.6.1, ptr %arg.work.0, ptr %arg.work.1, i64 %arg.work.5.1, i64 %arg.work.3, ptr %.855, i64 %arg.work.5.1, i64 %arg.work.6.1)
  %cond19 = icmp eq i32 %.3265, 0
  br i1 %cond19, label %B1346, label %B1092.if.if

B1346:
  %.3431 = load double, ptr %arg.work.4, align 8
  %.3466 = load double, ptr %.505, align 8
  %.3496 = load double, ptr %.575, align 8
  %.3526 = load double, ptr %.645, align 8
  %.3527 = fadd double %.3496, %.3526
  %.3528 = fmul double %.3527, 2.000000e+00
  %.3529 = fadd double %.3466, %.3528
  %.3559 = load double, ptr %.715, align 8
  %.3560 = fadd double %.3559, %.3529
  %.3561 = fmul double %.3436, %.3560
  %.3562 = fadd double %.3431, %.3561
  store double %.3562, ptr %arg.work.4, align 8
  %sunkaddr356 = getelementptr i8, ptr %arg.work.4, i64 8
  %.3431.1 = load double, ptr %sunkaddr356, align 8
  %sunkaddr357 = getelementptr i8, ptr %.505, i64 8
  %.3466.1 = load double, ptr %sunkaddr357, align 8
  %sunkaddr359 = getelementptr i8, ptr %.575, i64 8
  %.3496.1 = load double, ptr %sunkaddr359, align 8
  %sunkaddr360 = getelementptr i8, ptr %.645, i64 8
  %.3526.1 = load double, ptr %sunkaddr360, align 8
  %.3527.1 = fadd double %.3496.1, %.3526.1
  %.3528.1 = fmul double %.3527.1, 2.000000e+00
  %.3529.1 = fadd double %.3466.1, %.3528.1
  %sunkaddr361 = getelementptr i8, ptr %.715, i64 8
  %.3559.1 = load double, ptr %sunkaddr361, align 8
  %.3560.1 = fadd double %.3559.1, %.3529.1
  %.3561.1 = fmul double %.3436, %.3560.1
  %.3562.1 = fadd double %.3431.1, %.3561.1
  store double %.3562.1, ptr %sunkaddr356, align 8
  %sunkaddr362 = getelementptr i8, ptr %arg.work.4, i64 16
  %.3431.2 = load double, ptr %sunkaddr362, align 8
  %sunkaddr364 = getelementptr i8, ptr %.505, i64 16
  %.3466.2 = load double, ptr %sunkaddr364, align 8
  %sunkaddr365 = getelementptr i8, ptr %.575, i64 16
  %.3496.2 = load double, ptr %sunkaddr365, align 8
  %sunkaddr366 = getelementptr i8, ptr %.645, i64 16
  %.3526.2 = load double, ptr %sunkaddr366, align 8
  %.3527.2 = fadd double %.3496.2, %.3526.2
  %.3528.2 = fmul double %.3527.2, 2.000000e+00
  %.3529.2 = fadd double %.3466.2, %.3528.2
  %sunkaddr367 = getelementptr i8, ptr %.715, i64 16
  %.3559.2 = load double, ptr %sunkaddr367, align 8
  %.3560.2 = fadd double %.3559.2, %.3529.2
  %.3561.2 = fmul double %.3436, %.3560.2
  %.3562.2 = fadd double %.3431.2, %.3561.2
  store double %.3562.2, ptr %sunkaddr362, align 8
  %sunkaddr369 = getelementptr i8, ptr %arg.work.4, i64 24
  %.3431.3 = load double, ptr %sunkaddr369, align 8
  %sunkaddr370 = getelementptr i8, ptr %.505, i64 24
  %.3466.3 = load double, ptr %sunkaddr370, align 8
  %sunkaddr371 = getelementptr i8, ptr %.575, i64 24
  %.3496.3 = load double, ptr %sunkaddr371, align 8
  %sunkaddr372 = getelementptr i8, ptr %.645, i64 24
  %.3526.3 = load double, ptr %sunkaddr372, align 8
  %.3527.3 = fadd double %.3496.3, %.3526.3
  %.3528.3 = fmul double %.3527.3, 2.000000e+00
  %.3529.3 = fadd double %.3466.3, %.3528.3
  %sunkaddr377 = getelementptr i8, ptr %.715, i64 24
  %.3559.3 = load double, ptr %sunkaddr377, align 8
  %.3560.3 = fadd double %.3559.3, %.3529.3
  %.3561.3 = fmul double %.3436, %.3560.3
  %.3562.3 = fadd double %.3431.3, %.3561.3
  store double %.3562.3, ptr %sunkaddr369, align 8
  %sunkaddr378 = getelementptr i8, ptr %arg.work.4, i64 32
  %.3431.4 = load double, ptr %sunkaddr378, align 8
  %sunkaddr379 = getelementptr i8, ptr %.505, i64 32
  %.3466.4 = load double, ptr %sunkaddr379, align 8
  %sunkaddr380 = getelementptr i8, ptr %.575, i64 32
  %.3496.4 = load double, ptr %sunkaddr380, align 8
  %sunkaddr381 = getelementptr i8, ptr %.645, i64 32
  %.3526.4 = load double, ptr %sunkaddr381, align 8
  %.3527.4 = fadd double %.3496.4, %.3526.4
  %.3528.4 = fmul double %.3527.4, 2.000000e+00
  %.3529.4 = fadd double %.3466.4, %.3528.4
  %sunkaddr382 = getelementptr i8, ptr %.715, i64 32
  %.3559.4 = load double, ptr %sunkaddr382, align 8
  %.3560.4 = fadd double %.3559.4, %.3529.4
  %.3561.4 = fmul double %.3436, %.3560.4
  %.3562.4 = fadd double %.3431.4, %.3561.4
  store double %.3562.4, ptr %sunkaddr378, align 8
  %sunkaddr383 = getelementptr i8, ptr %arg.work.4, i64 40
  %.3431.5 = load double, ptr %sunkaddr383, align 8
  %sunkaddr384 = getelementptr i8, ptr %.505, i64 40
  %.3466.5 = load double, ptr %sunkaddr384, align 8
  %sunkaddr385 = getelementptr i8, ptr %.575, i64 40
  %.3496.5 = load double, ptr %sunkaddr385, align 8
  %sunkaddr386 = getelementptr i8, ptr %.645, i64 40
  %.3526.5 = load double, ptr %sunkaddr386, align 8
  %.3527.5 = fadd double %.3496.5, %.3526.5
  %.3528.5 = fmul double %.3527.5, 2.000000e+00
  %.3529.5 = fadd double %.3466.5, %.3528.5
  %sunkaddr387 = getelementptr i8, ptr %.715, i64 40
  %.3559.5 = load double, ptr %sunkaddr387, align 8
  %.3560.5 = fadd double %.3559.5, %.3529.5
  %.3561.5 = fmul double %.3436, %.3560.5
  %.3562.5 = fadd double %.3431.5, %.3561.5
  store double %.3562.5, ptr %sunkaddr383, align 8
  %sunkaddr388 = getelementptr i8, ptr %arg.work.4, i64 48
  %.3431.6 = load double, ptr %sunkaddr388, align 8
  %sunkaddr389 = getelementptr i8, ptr %.505, i64 48
  %.3466.6 = load double, ptr %sunkaddr389, align 8
  %sunkaddr390 = getelementptr i8, ptr %.575, i64 48
  %.3496.6 = load double, ptr %sunkaddr390, align 8
  %sunkaddr391 = getelementptr i8, ptr %.645, i64 48
  %.3526.6 = load double, ptr %sunkaddr391, align 8
  %.3527.6 = fadd double %.3496.6, %.3526.6
  %.3528.6 = fmul double %.3527.6, 2.000000e+00
  %.3529.6 = fadd double %.3466.6, %.3528.6
  %sunkaddr392 = getelementptr i8, ptr %.715, i64 48
  %.3559.6 = load double, ptr %sunkaddr392, align 8
  %.3560.6 = fadd double %.3559.6, %.3529.6
  %.3561.6 = fmul double %.3436, %.3560.6
  %.3562.6 = fadd double %.3431.6, %.3561.6
  store double %.3562.6, ptr %sunkaddr388, align 8
  %sunkaddr393 = getelementptr i8, ptr %arg.work.4, i64 56
  %.3431.7 = load double, ptr %sunkaddr393, align 8
  %sunkaddr394 = getelementptr i8, ptr %.505, i64 56
  %.3466.7 = load double, ptr %sunkaddr394, align 8
  %sunkaddr395 = getelementptr i8, ptr %.575, i64 56
  %.3496.7 = load double, ptr %sunkaddr395, align 8
  %sunkaddr396 = getelementptr i8, ptr %.645, i64 56
  %.3526.7 = load double, ptr %sunkaddr396, align 8
  %.3527.7 = fadd double %.3496.7, %.3526.7
  %.3528.7 = fmul double %.3527.7, 2.000000e+00
  %.3529.7 = fadd double %.3466.7, %.3528.7
  %sunkaddr397 = getelementptr i8, ptr %.715, i64 56
  %.3559.7 = load double, ptr %sunkaddr397, align 8
  %.3560.7 = fadd double %.3559.7, %.3529.7
  %.3561.7 = fmul double %.3436, %.3560.7
  %.3562.7 = fadd double %.3431.7, %.3561.7
  store double %.3562.7, ptr %sunkaddr393, align 8
  %sunkaddr398 = getelementptr i8, ptr %arg.work.4, i64 64
  %.3431.8 = load double, ptr %sunkaddr398, align 8
  %sunkaddr399 = getelementptr i8, ptr %.505, i64 64
  %.3466.8 = load double, ptr %sunkaddr399, align 8
  %sunkaddr400 = getelementptr i8, ptr %.575, i64 64
  %.3496.8 = load double, ptr %sunkaddr400, align 8
  %sunkaddr401 = getelementptr i8, ptr %.645, i64 64
  %.3526.8 = load double, ptr %sunkaddr401, align 8
  %.3527.8 = fadd double %.3496.8, %.3526.8
  %.3528.8 = fmul double %.3527.8, 2.000000e+00
  %.3529.8 = fadd double %.3466.8, %.3528.8
  %sunkaddr402 = getelementptr i8, ptr %.715, i64 64
  %.3559.8 = load double, ptr %sunkaddr402, align 8
  %.3560.8 = fadd double %.3559.8, %.3529.8
  %.3561.8 = fmul double %.3436, %.3560.8
  %.3562.8 = fadd double %.3431.8, %.3561.8
  store double %.3562.8, ptr %sunkaddr398, align 8
  %sunkaddr403 = getelementptr i8, ptr %arg.work.4, i64 72
  %.3431.9 = load double, ptr %sunkaddr403, align 8
  %sunkaddr404 = getelementptr i8, ptr %.505, i64 72
  %.3466.9 = load double, ptr %sunkaddr404, align 8
  %sunkaddr405 = getelementptr i8, ptr %.575, i64 72
  %.3496.9 = load double, ptr %sunkaddr405, align 8
  %sunkaddr406 = getelementptr i8, ptr %.645, i64 72
  %.3526.9 = load double, ptr %sunkaddr406, align 8
  %.3527.9 = fadd double %.3496.9, %.3526.9
  %.3528.9 = fmul double %.3527.9, 2.000000e+00
  %.3529.9 = fadd double %.3466.9, %.3528.9
  %sunkaddr407 = getelementptr i8, ptr %.715, i64 72
  %.3559.9 = load double, ptr %sunkaddr407, align 8
  %.3560.9 = fadd double %.3559.9, %.3529.9
  %.3561.9 = fmul double %.3436, %.3560.9
  %.3562.9 = fadd double %.3431.9, %.3561.9
  store double %.3562.9, ptr %sunkaddr403, align 8
  %sunkaddr408 = getelementptr i8, ptr %arg.work.4, i64 80
  %.3431.10 = load double, ptr %sunkaddr408, align 8
  %sunkaddr409 = getelementptr i8, ptr %.505, i64 80
  %.3466.10 = load double, ptr %sunkaddr409, align 8
  %sunkaddr410 = getelementptr i8, ptr %.575, i64 80
  %.3496.10 = load double, ptr %sunkaddr410, align 8
  %sunkaddr411 = getelementptr i8, ptr %.645, i64 80
  %.3526.10 = load double, ptr %sunkaddr411, align 8
  %.3527.10 = fadd double %.3496.10, %.3526.10
  %.3528.10 = fmul double %.3527.10, 2.000000e+00
  %.3529.10 = fadd double %.3466.10, %.3528.10
  %sunkaddr412 = getelementptr i8, ptr %.715, i64 80
  %.3559.10 = load double, ptr %sunkaddr412, align 8
  %.3560.10 = fadd double %.3559.10, %.3529.10
  %.3561.10 = fmul double %.3436, %.3560.10
  %.3562.10 = fadd double %.3431.10, %.3561.10
  store double %.3562.10, ptr %sunkaddr408, align 8
  %sunkaddr413 = getelementptr i8, ptr %arg.work.4, i64 88
  %.3431.11 = load double, ptr %sunkaddr413, align 8
  %sunkaddr414 = getelementptr i8, ptr %.505, i64 88
  %.3466.11 = load double, ptr %sunkaddr414, align 8
  %sunkaddr415 = getelementptr i8, ptr %.575, i64 88
  %.3496.11 = load double, ptr %sunkaddr415, align 8
  %sunkaddr416 = getelementptr i8, ptr %.645, i64 88
  %.3526.11 = load double, ptr %sunkaddr416, align 8
  %.3527.11 = fadd double %.3496.11, %.3526.11
  %.3528.11 = fmul double %.3527.11, 2.000000e+00
  %.3529.11 = fadd double %.3466.11, %.3528.11
  %sunkaddr417 = getelementptr i8, ptr %.715, i64 88
  %.3559.11 = load double, ptr %sunkaddr417, align 8
  %.3560.11 = fadd double %.3559.11, %.3529.11
  %.3561.11 = fmul double %.3436, %.3560.11
  %.3562.11 = fadd double %.3431.11, %.3561.11
  store double %.3562.11, ptr %sunkaddr413, align 8
  %sunkaddr418 = getelementptr i8, ptr %arg.work.4, i64 96
  %.3431.12 = load double, ptr %sunkaddr418, align 8
  %sunkaddr419 = getelementptr i8, ptr %.505, i64 96
  %.3466.12 = load double, ptr %sunkaddr419, align 8
  %sunkaddr420 = getelementptr i8, ptr %.575, i64 96
  %.3496.12 = load double, ptr %sunkaddr420, align 8
  %sunkaddr421 = getelementptr i8, ptr %.645, i64 96
  %.3526.12 = load double, ptr %sunkaddr421, align 8
  %.3527.12 = fadd double %.3496.12, %.3526.12
  %.3528.12 = fmul double %.3527.12, 2.000000e+00
  %.3529.12 = fadd double %.3466.12, %.3528.12
  %sunkaddr422 = getelementptr i8, ptr %.715, i64 96
  %.3559.12 = load double, ptr %sunkaddr422, align 8
  %.3560.12 = fadd double %.3559.12, %.3529.12
  %.3561.12 = fmul double %.3436, %.3560.12
  %.3562.12 = fadd double %.3431.12, %.3561.12
  store double %.3562.12, ptr %sunkaddr418, align 8
  %sunkaddr423 = getelementptr i8, ptr %arg.work.4, i64 104
  %.3431.13 = load double, ptr %sunkaddr423, align 8
  %sunkaddr424 = getelementptr i8, ptr %.505, i64 104
  %.3466.13 = load double, ptr %sunkaddr424, align 8
  %sunkaddr425 = getelementptr i8, ptr %.575, i64 104
  %.3496.13 = load double, ptr %sunkaddr425, align 8
  %sunkaddr426 = getelementptr i8, ptr %.645, i64 104
  %.3526.13 = load double, ptr %sunkaddr426, align 8
  %.3527.13 = fadd double %.3496.13, %.3526.13
  %.3528.13 = fmul double %.3527.13, 2.000000e+00
  %.3529.13 = fadd double %.3466.13, %.3528.13
  %sunkaddr427 = getelementptr i8, ptr %.715, i64 104
  %.3559.13 = load double, ptr %sunkaddr427, align 8
  %.3560.13 = fadd double %.3559.13, %.3529.13
  %.3561.13 = fmul double %.3436, %.3560.13
  %.3562.13 = fadd double %.3431.13, %.3561.13
  store double %.3562.13, ptr %sunkaddr423, align 8
  %.3761 = fcmp ogt double %.3562.2, 0.000000e+00
  br i1 %.3761, label %B1504, label %B408.backedge

B408.backedge:
  %over.2.01920.be = phi i1 [ true, %B574.endif ], [ true, %B1650 ], [ false, %B1504 ], [ false, %B1346 ]
  %lsr.iv.next = add i64 %lsr.iv, 16
  %2 = add nuw nsw i64 %.181518281918, 1
  br label %B408

B1504:
  %sunkaddr428 = getelementptr i8, ptr %arg.p.4, i64 24
  %.3692 = load double, ptr %sunkaddr428, align 8
  %sunkaddr429 = getelementptr i8, ptr %arg.p.4, i64 16
  %.3722 = load double, ptr %sunkaddr429, align 8
  %.3723 = fsub double %.3692, %.3722
  %.3724 = fsub double %.3562.4, %.3723
  %sunkaddr430 = getelementptr i8, ptr %arg.p.4, i64 592
  %.3632 = load double, ptr %sunkaddr430, align 8
  %.3798 = tail call double @llvm.cos.f64(double %.3562.2)
  %.3800 = fmul double %.3798, %.3632
  %.3833 = tail call double @llvm.sin.f64(double %.3562.2)
  %.3835 = fmul double %.3833, %.3724
  %.3838 = fsub double %.3800, %.3835
  %.3839 = fcmp ult double %.3838, 0.000000e+00
  br i1 %.3839, label %B408.backedge, label %B1650

B1650:
  %.3848 = uitofp i64 %0 to double
  %.3849 = fmul double %arg.step, %.3848
  %sunkaddr431 = getelementptr i8, ptr %arg.g.4, i64 88
  store double %.3849, ptr %sunkaddr431, align 8
  br label %B408.backedge

common.ret:
  %common.ret.op = phi i32 [ 0, %B1690 ], [ %.1968, %B408.if.if ], [ 1, %B504.if.if ], [ %.2198, %B574.if.if ], [ %.2562, %B718.if.if ], [ %.2913, %B908.if.if ], [ %.3265, %B1092.if.if ]
  ret i32 %common.ret.op

B1690:
  %p.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.p.0, %.1434.endif.endif ]
  %paths.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.paths.0, %.1434.endif.endif ]
  %hinges.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.hinges.0, %.1434.endif.endif ]
  %ground.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.ground.0, %.1434.endif.endif ]
  %heights.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.heights.0, %.1434.endif.endif ]
  %forces.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.forces.0, %.1434.endif.endif ]
  %throttles.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.throttles.0, %.1434.endif.endif ]
  %engine.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.engine.0, %.1434.endif.endif ]
  %states.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.states.0, %.1434.endif.endif ]
  %kept.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.kept.0, %.1434.endif.endif ]
  %t.sroa.0.0 = phi ptr [ null, %B568 ], [ %arg.work.0, %.1434.endif.endif ]
  %.4043 = load double, ptr %arg.work.4, align 8
  %.4073 = load double, ptr %arg.start.4, align 8
  %.4079 = fsub double %.4043, %.4073
  %sunkaddr432 = getelementptr i8, ptr %arg.work.4, i64 40
  %.4110 = load double, ptr %sunkaddr432, align 8
  %.4144 = getelementptr i8, ptr %arg.g.4, i64 72
  store double %.4079, ptr %.4144, align 8
  %.4174 = getelementptr i8, ptr %arg.g.4, i64 80
  store double %.4110, ptr %.4174, align 8
  store ptr null, ptr %retptr, align 8
  br label %common.ret

.1433.endif.preheader:
  %3 = shl i64 %arg.g.5.0, 3
  tail call void @llvm.memset.p0.i64(ptr align 8 %arg.g.4, i8 0, i64 %3, i1 false)
  br label %.1434.endif.endif

.1434.endif.endif:
  %.1628 = load double, ptr %arg.start.4, align 8
  store double %.1628, ptr %arg.work.4, align 8
  %4 = getelementptr i8, ptr %arg.start.4, i64 8
  %.1628.1 = load double, ptr %4, align 8
  %5 = getelementptr i8, ptr %arg.work.4, i64 8
  store double %.1628.1, ptr %5, align 8
  %6 = getelementptr i8, ptr %arg.start.4, i64 16
  %.1628.2 = load double, ptr %6, align 8
  %7 = getelementptr i8, ptr %arg.work.4, i64 16
  store double %.1628.2, ptr %7, align 8
  %8 = getelementptr i8, ptr %arg.start.4, i64 24
  %.1628.3 = load double, ptr %8, align 8
  %9 = getelementptr i8, ptr %arg.work.4, i64 24
  store double %.1628.3, ptr %9, align 8
  %10 = getelementptr i8, ptr %arg.start.4, i64 32
  %.1628.4 = load double, ptr %10, align 8
  %11 = getelementptr i8, ptr %arg.work.4, i64 32
  store double %.1628.4, ptr %11, align 8
  %12 = getelementptr i8, ptr %arg.start.4, i64 40
  %.1628.5 = load double, ptr %12, align 8
  %13 = getelementptr i8, ptr %arg.work.4, i64 40
  store double %.1628.5, ptr %13, align 8
  %14 = getelementptr i8, ptr %arg.start.4, i64 48
  %.1628.6 = load double, ptr %14, align 8
  %15 = getelementptr i8, ptr %arg.work.4, i64 48
  store double %.1628.6, ptr %15, align 8
  %16 = getelementptr i8, ptr %arg.start.4, i64 56
  %.1628.7 = load double, ptr %16, align 8
  %17 = getelementptr i8, ptr %arg.work.4, i64 56
  store double %.1628.7, ptr %17, align 8
  %18 = getelementptr i8, ptr %arg.start.4, i64 64
  %.1628.8 = load double, ptr %18, align 8
  %19 = getelementptr i8, ptr %arg.work.4, i64 64
  store double %.1628.8, ptr %19, align 8
  %20 = getelementptr i8, ptr %arg.start.4, i64 72
  %.1628.9 = load double, ptr %20, align 8
  %21 = getelementptr i8, ptr %arg.work.4, i64 72
  store double %.1628.9, ptr %21, align 8
  %22 = getelementptr i8, ptr %arg.start.4, i64 80
  %.1628.10 = load double, ptr %22, align 8
  %23 = getelementptr i8, ptr %arg.work.4, i64 80
  store double %.1628.10, ptr %23, align 8
  %24 = getelementptr i8, ptr %arg.start.4, i64 88
  %.1628.11 = load double, ptr %24, align 8
  %25 = getelementptr i8, ptr %arg.work.4, i64 88
  store double %.1628.11, ptr %25, align 8
  %26 = getelementptr i8, ptr %arg.start.4, i64 96
  %.1628.12 = load double, ptr %26, align 8
  %27 = getelementptr i8, ptr %arg.work.4, i64 96
  store double %.1628.12, ptr %27, align 8
  %28 = getelementptr i8, ptr %arg.start.4, i64 104
  %.1628.13 = load double, ptr %28, align 8
  %29 = getelementptr i8, ptr %arg.work.4, i64 104
  store double %.1628.13, ptr %29, align 8
  %.1692 = getelementptr i8, ptr %arg.g.4, i64 48
  store double 1.000000e+30, ptr %.1692, align 8
  %.1722 = getelementptr i8, ptr %arg.g.4, i64 88
  store double 0x7FF8000000000000, ptr %.1722, align 8
  %.18091909 = icmp sgt i64 %.272.1, -1
  br i1 %.18091909, label %B408.lr.ph, label %B1690

B408.lr.ph:
  %.2379 = fmul double %arg.step, 5.000000e-01
  %.3436 = fdiv double %arg.step, 6.000000e+00
  br label %B408

B408.endif:
  %30 = icmp sgt i64 %arg.states.5.1, 1
  br i1 %30, label %B504, label %B548

B408.if.if:
  %.1976 = icmp sgt i32 %.1968, 0
  %.1969 = load ptr, ptr %excinfo.1, align 8
  %.1977 = select i1 %.1976, ptr %.1969, ptr undef
  store ptr %.1977, ptr %excinfo, align 8
  br label %common.ret

B504.if.if:
  store ptr null, ptr %excinfo, align 8
  br label %common.ret

B574.endif:
  br i1 %over.2.01920, label %B408.backedge, label %B718

B574.if.if:
  store ptr null, ptr %excinfo, align 8
  br label %common.ret

B718.if.if:
  %.2570 = icmp sgt i32 %.2562, 0
  %.2563 = load ptr, ptr %excinfo.4, align 8
  %.2571 = select i1 %.2570, ptr %.2563, ptr undef
  store ptr %.2571, ptr %excinfo, align 8
  br label %common.ret

B908.if.if:
  %.2921 = icmp sgt i32 %.2913, 0
  %.2914 = load ptr, ptr %excinfo.5, align 8
  %.2922 = select i1 %.2921, ptr %.2914, ptr undef
  store ptr %.2922, ptr %excinfo, align 8
  br label %common.ret

B1092.if.if:
  %.3273 = icmp sgt i32 %.3265, 0
  %.3266 = load ptr, ptr %excinfo.6, align 8
  %.3274 = select i1 %.3273, ptr %.3266, ptr undef
  store ptr %.3274, ptr %excinfo, align 8
  br label %common.ret
}

define internal i32 @rates(ptr noalias %retptr, ptr noalias %excinfo, ptr %arg.y.0, ptr %arg.y.1, i64 %arg.y.2, i64 %arg.y.3, ptr %arg.y.4, i64 %arg.y.5.0, i64 %arg.y.6.0, ptr %arg.dy.0, ptr %arg.dy.1, i64 %arg.dy.2, i64 %arg.dy.3, ptr %arg.dy.4, i64 %arg.dy.5.0, i64 %arg.dy.6.0, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %arg.force, double %arg.throttle, ptr %arg.engine.0, ptr %arg.engine.1, i64 %arg.engine.2, i64 %arg.engine.3, ptr %arg.engine.4, i64 %arg.engine.5.0, i64 %arg.engine.5.1, i64 %arg.engine.6.0, i64 %arg.engine.6.1, ptr %arg.f.0, ptr %arg.f.1, i64 %arg.f.2, i64 %arg.f.3, ptr %arg.f.4, i64 %arg.f.5.0, i64 %arg.f.6.0, ptr %arg.r.0, ptr %arg.r.1, i64 %arg.r.2, i64 %arg.r.3, ptr %arg.r.4, i64 %arg.r.5.0, i64 %arg.r.6.0) {
B0:
  %.716 = alloca ptr, align 8
  %excinfo.4 = alloca ptr, align 8
  store ptr null, ptr %excinfo.4, align 8
  %.226 = getelementptr i8, ptr %arg.y.4, i64 16
  %.227 = load double, ptr %.226, align 8
  %.228 = tail call double @llvm.sin.f64(double %.227)
  %.259 = tail call double @llvm.cos.f64(double %.227)
  %.294 = getelementptr i8, ptr %arg.p.4, i64 64
  %.295 = load double, ptr %.294, align 8
  %.296 = fcmp une double %.295, 0.000000e+00
  br i1 %.296, label %B162, label %B200

B162:
  %.70.i = icmp eq i64 %arg.engine.5.1, 1
  br i1 %.70.i, label %B38.i, label %B60.i

B38.i:
  %.134.i = getelementptr i8, ptr %arg.engine.4, i64 8
  %.135.i = load double, ptr %.134.i, align 8
  %.144.i = fmul double %arg.throttle, %.135.i
  br label %B200

B60.i:
  %.178.i = getelementptr i8, ptr %arg.p.4, i64 168
  %.179.i = load double, ptr %.178.i, align 8
  %.208.i = getelementptr i8, ptr %arg.y.4, i64 80
  %.209.i = load double, ptr %.208.i, align 8
  %.210.i = fmul double %.179.i, %.209.i
  %.240.i = getelementptr i8, ptr %arg.p.4, i64 680
  %.241.i = load double, ptr %.240.i, align 8
  %.271.i = getelementptr i8, ptr %arg.y.4, i64 88
  %.272.i = load double, ptr %.271.i, align 8
  %.278.i = fmul double %.241.i, %.272.i
  %.279.i = fadd double %.210.i, %.278.i
  %.308.i = getelementptr i8, ptr %arg.p.4, i64 72
  %.309.i = load double, ptr %.308.i, align 8
  %.310.i = fmul double %.309.i, %.279.i
  %.387.i = load double, ptr %arg.engine.4, align 8
  %.391.i = fcmp ugt double %.310.i, %.387.i
  br i1 %.391.i, label %B336.endif.i, label %B286.i

B286.i:
  %.433.i = fmul double %arg.throttle, %.309.i
  %.488.i = getelementptr double, ptr %arg.engine.4, i64 %arg.engine.5.1
  %.489.i = load double, ptr %.488.i, align 8
  %.497.i = fmul double %.433.i, %.489.i
  br label %B200

B368.i:
  %lsr.iv = phi i64 [ -1, %B336.endif.i ], [ %lsr.iv.next, %B370.i ]
  %0 = add i64 %15, %lsr.iv
  %exitcond.not.i = icmp eq i64 %0, -1
  br i1 %exitcond.not.i, label %B604.i, label %B370.i

B370.i:
  %1 = add i64 %lsr.iv, 2
  %.653.i = icmp slt i64 %1, 0
  %2 = select i1 %.653.i, i64 %14, i64 0
  %3 = shl i64 %lsr.iv, 3
  %4 = add i64 %2, 8
  %scevgep8 = getelementptr i8, ptr %arg.engine.4, i64 %4
  %scevgep9 = getelementptr i8, ptr %scevgep8, i64 %3
  %scevgep10 = getelementptr i8, ptr %scevgep9, i64 8
  %.677.i = load double, ptr %scevgep10, align 8
  %.679.i = fcmp olt double %.310.i, %.677.i
  %lsr.iv.next = add nsw i64 %lsr.iv, 1
  br i1 %.679.i, label %B400.i, label %B368.i

B400.i:
  %.716.inv.i = icmp ult i64 %lsr.iv.next, 9223372036854775807
  %5 = select i1 %.716.inv.i, i64 0, i64 %14
  %scevgep3 = getelementptr i8, ptr %arg.engine.4, i64 %5
  %6 = shl i64 %lsr.iv.next, 3
  %scevgep4 = getelementptr i8, ptr %scevgep3, i64 %6
  %.740.i = load double, ptr %scevgep4, align 8
  %.742.i = fsub double %.310.i, %.740.i
  %.856.i = fsub double %.677.i, %.740.i
  %.860.i = fdiv double %.742.i, %.856.i
  %.897.i = fmul double %arg.throttle, %.309.i
  %7 = getelementptr double, ptr %arg.engine.4, i64 %arg.engine.5.1
  %scevgep1 = getelementptr i8, ptr %7, i64 %5
  %8 = shl i64 %lsr.iv.next, 3
  %scevgep7 = getelementptr i8, ptr %scevgep1, i64 %8
  %.955.i = load double, ptr %scevgep7, align 8
  %9 = add i64 %2, 8
  %scevgep5 = getelementptr i8, ptr %7, i64 %9
  %10 = shl i64 %lsr.iv.next, 3
  %scevgep6 = getelementptr i8, ptr %scevgep5, i64 %10
  %.1010.i = load double, ptr %scevgep6, align 8
  %.1076.i = fsub double %.1010.i, %.955.i
  %.1077.i = fmul double %.860.i, %.1076.i
  %.1078.i = fadd double %.955.i, %.1077.i
  %.1079.i = fmul double %.897.i, %.1078.i
  br label %B200

B604.i:
  %.1127.i = fmul double %arg.throttle, %.309.i
  %.1164.i = tail call i64 @llvm.smin.i64(i64 %arg.engine.5.1, i64 0)
  %11 = getelementptr double, ptr %arg.engine.4, i64 %arg.engine.5.1
  %12 = getelementptr double, ptr %11, i64 %arg.engine.5.1
  %13 = getelementptr i8, ptr %12, i64 -8
  %.1186.i = getelementptr double, ptr %13, i64 %.1164.i
  %.1187.i = load double, ptr %.1186.i, align 8
  %.1195.i = fmul double %.1127.i, %.1187.i
  br label %B200

B336.endif.i:
  %.537.i = add i64 %arg.engine.5.1, -1
  %..537.i = tail call i64 @llvm.smax.i64(i64 %.537.i, i64 0)
  %14 = shl i64 %arg.engine.5.1, 3
  %15 = sub i64 0, %..537.i
  br label %B368.i

B200:
  %"$phi200.0.2.0" = phi double [ 0.000000e+00, %B0 ], [ %.1079.i, %B400.i ], [ %.1195.i, %B604.i ], [ %.497.i, %B286.i ], [ %.144.i, %B38.i ]
  %.400 = getelementptr i8, ptr %arg.ground.4, i64 32
  %.401 = load double, ptr %.400, align 8
  %.402 = fcmp ogt double %.401, 0.000000e+00
  br i1 %.402, label %B236.endif.endif, label %B404

B404:
  %torque.2.0 = phi double [ %.491, %B236.endif.endif ], [ %"$phi200.0.2.0", %B200 ]
  %.746 = call i32 @axle_acts(ptr nonnull %.716, ptr nonnull %excinfo.4, i64 0, i64 10, ptr %arg.y.0, ptr %arg.y.1, i64 %arg.y.2, i64 %arg.y.3, ptr nonnull %arg.y.4, i64 %arg.y.5.0, i64 %arg.y.6.0, double %.228, double %.259, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr nonnull %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr nonnull %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %arg.force, double %torque.2.0, ptr %arg.f.0, ptr %arg.f.1, i64 %arg.f.2, i64 %arg.f.3, ptr %arg.f.4, i64 %arg.f.5.0, i64 %arg.f.6.0)
  %cond = icmp eq i32 %.746, 0
  br i1 %cond, label %B404.1, label %B404.if.if

common.ret:
  %common.ret.op = phi i32 [ %.746.lcssa, %B404.if.if ], [ 0, %B1984.endif.endif.endif.endif.endif.endif ]
  ret i32 %common.ret.op

B236.endif.endif:
  %.432 = getelementptr i8, ptr %arg.y.4, i64 104
  %.433 = load double, ptr %.432, align 8
  %.12.i = fcmp olt double %.433, 0.000000e+00
  %.13.i = select i1 %.12.i, double 0.000000e+00, double %.433
  %.12.i5 = fcmp ogt double %.13.i, 1.000000e+00
  %.13.i6 = select i1 %.12.i5, double 1.000000e+00, double %.13.i
  %.491 = fmul double %"$phi200.0.2.0", %.13.i6
  br label %B404

B404.1:
  %.746.1 = call i32 @axle_acts(ptr nonnull %.716, ptr nonnull %excinfo.4, i64 1, i64 74, ptr %arg.y.0, ptr %arg.y.1, i64 %arg.y.2, i64 %arg.y.3, ptr nonnull %arg.y.4, i64 %arg.y.5.0, i64 %arg.y.6.0, double %.228, double %.259, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr nonnull %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr nonnull %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %arg.force, double %torque.2.0, ptr %arg.r.0, ptr %arg.r.1, i64 %arg.r.2, i64 %arg.r.3, ptr %arg.r.4, i64 %arg.r.5.0, i64 %arg.r.6.0)
  %cond9 = icmp eq i32 %.746.1, 0
  br i1 %cond9, label %B404.endif.1, label %B404.if.if

B404.endif.1:
  %.845 = getelementptr i8, ptr %arg.p.4, i64 56
  %.846 = load double, ptr %.845, align 8
  %.847 = fcmp ogt double %.846, 0.000000e+00
  br i1 %.847, label %B514.endif, label %B1984.endif.endif.endif.endif.endif

B404.if.if:
  %.746.lcssa = phi i32 [ %.746, %B404 ], [ %.746.1, %B404.1 ]
  %.754 = icmp sgt i32 %.746.lcssa, 0
  %.747 = load ptr, ptr %excinfo.4, align 8
  %.755 = select i1 %.754, ptr %.747, ptr undef
  store ptr %.755, ptr %excinfo, align 8
  br label %common.ret

B514.endif:
  %.878 = getelementptr i8, ptr %arg.p.4, i64 592
  %.879 = load double, ptr %.878, align 8
  %.908 = getelementptr i8, ptr %arg.p.4, i64 40
  %.909 = load double, ptr %.908, align 8
  %.910 = fsub double %.879, %.909
  %.939 = getelementptr i8, ptr %arg.p.4, i64 48
  %.940 = load double, ptr %.939, align 8
  %.969 = getelementptr i8, ptr %arg.p.4, i64 24
  %.970 = load double, ptr %.969, align 8
  %.971 = fsub double %.940, %.970
  %.1002 = fneg double %.846
  %.1031 = getelementptr i8, ptr %arg.y.4, i64 8
  %.1032 = load double, ptr %.1031, align 8
  %.1034 = fmul double %.228, %.910
  %.1035 = fadd double %.1034, %.1032
  %.1037 = fmul double %.259, %.971
  %.1038 = fadd double %.1035, %.1037
  %.1039 = fmul double %.1038, %.1002
  %.12.i1 = fcmp olt double %.1039, 0.000000e+00
  %.13.i2 = select i1 %.12.i1, double 0.000000e+00, double %.1039
  %.1071 = fmul double %.259, %.910
  %.1073 = fmul double %.228, %.971
  %.1074 = fsub double %.1071, %.1073
  %.1075 = fmul double %.1074, %.13.i2
  br label %B1984.endif.endif.endif.endif.endif

B1984.endif.endif.endif.endif.endif:
  %bar.2.0 = phi double [ %.13.i2, %B514.endif ], [ 0.000000e+00, %B404.endif.1 ]
  %moment.2.0 = phi double [ %.1075, %B514.endif ], [ 0.000000e+00, %B404.endif.1 ]
  %.1108 = getelementptr i8, ptr %arg.p.4, i64 88
  %.1109 = load double, ptr %.1108, align 8
  %.1139 = getelementptr i8, ptr %arg.p.4, i64 600
  %.1140 = load double, ptr %.1139, align 8
  %.1176 = load double, ptr %arg.p.4, align 8
  %.1206 = load double, ptr %arg.f.4, align 8
  %.1270 = load double, ptr %arg.r.4, align 8
  %.1365 = getelementptr i8, ptr %arg.f.4, i64 8
  %.1366 = load double, ptr %.1365, align 8
  %.1428 = getelementptr i8, ptr %arg.r.4, i64 8
  %.1429 = load double, ptr %.1428, align 8
  %.1650 = getelementptr i8, ptr %arg.f.4, i64 16
  %.1651 = load double, ptr %.1650, align 8
  %.1713 = getelementptr i8, ptr %arg.r.4, i64 16
  %.1714 = load double, ptr %.1713, align 8
  %.1872 = getelementptr i8, ptr %arg.p.4, i64 8
  %.1873 = load double, ptr %.1872, align 8
  %.2068 = getelementptr i8, ptr %arg.f.4, i64 24
  %.2069 = load double, ptr %.2068, align 8
  %.2098 = getelementptr i8, ptr %arg.r.4, i64 24
  %.2099 = load double, ptr %.2098, align 8
  %.2132 = getelementptr i8, ptr %arg.f.4, i64 32
  %.2133 = load double, ptr %.2132, align 8
  %.2162 = getelementptr i8, ptr %arg.r.4, i64 32
  %.2163 = load double, ptr %.2162, align 8
  %.2196 = getelementptr i8, ptr %arg.f.4, i64 40
  %.2197 = load double, ptr %.2196, align 8
  %.2226 = getelementptr i8, ptr %arg.r.4, i64 40
  %.2227 = load double, ptr %.2226, align 8
  %16 = getelementptr i8, ptr %arg.y.4, i64 40
  %.2439 = load double, ptr %16, align 8
  store double %.2439, ptr %arg.dy.4, align 8
  %17 = getelementptr i8, ptr %arg.y.4, i64 48
  %.2439.1 = load double, ptr %17, align 8
  %18 = getelementptr i8, ptr %arg.dy.4, i64 8
  store double %.2439.1, ptr %18, align 8
  %19 = getelementptr i8, ptr %arg.y.4, i64 56
  %.2439.2 = load double, ptr %19, align 8
  %20 = getelementptr i8, ptr %arg.dy.4, i64 16
  store double %.2439.2, ptr %20, align 8
  %21 = getelementptr i8, ptr %arg.y.4, i64 64
  %.2439.3 = load double, ptr %21, align 8
  %22 = getelementptr i8, ptr %arg.dy.4, i64 24
  store double %.2439.3, ptr %22, align 8
  %23 = getelementptr i8, ptr %arg.y.4, i64 72
  %.2439.4 = load double, ptr %23, align 8
  %24 = getelementptr i8, ptr %arg.dy.4, i64 32
  store double %.2439.4, ptr %24, align 8
  %.1208 = fmul double %.1109, %.1206
  %.1239 = fmul double %.1206, %.1208
  %.1240 = fadd double %.1176, %.1239
  %.1272 = fmul double %.1140, %.1270
  %.1303 = fmul double %.1270, %.1272
  %.1304 = fadd double %.1240, %.1303
  %.1367 = fmul double %.1208, %.1366
  %.1430 = fmul double %.1272, %.1429
  %.1431 = fadd double %.1367, %.1430
  %.1493 = fmul double %.1109, %.1366
  %.1524 = fmul double %.1366, %.1493
  %.1525 = fadd double %.1176, %.1524
  %.1557 = fmul double %.1140, %.1429
  %.1588 = fmul double %.1429, %.1557
  %.1589 = fadd double %.1525, %.1588
  %.1652 = fmul double %.1208, %.1651
  %.1715 = fmul double %.1272, %.1714
  %.1716 = fadd double %.1652, %.1715
  %.1779 = fmul double %.1493, %.1651
  %.1842 = fmul double %.1557, %.1714
  %.1843 = fadd double %.1779, %.1842
  %.1905 = fmul double %.1109, %.1651
  %.1936 = fmul double %.1651, %.1905
  %.1937 = fadd double %.1873, %.1936
  %.1969 = fmul double %.1140, %.1714
  %.2000 = fmul double %.1714, %.1969
  %.2001 = fadd double %.1937, %.2000
  %.2037 = fmul double %.1176, 0x40239D013A92A305
  %.2039 = fsub double %bar.2.0, %.2037
  %.2100 = fadd double %.2069, %.2099
  %.2102 = fmul double %.228, %.2039
  %.2103 = fadd double %.2102, %.2100
  %.2164 = fadd double %.2133, %.2163
  %.2166 = fmul double %.259, %.2039
  %.2167 = fadd double %.2166, %.2164
  %.2228 = fadd double %.2197, %.2227
  %.2230 = fadd double %moment.2.0, %.2228
  %.2233 = fmul double %.1589, %.2001
  %.2234 = fmul double %.1843, %.1843
  %.2235 = fsub double %.2233, %.2234
  %.2236 = fmul double %.1716, %.1843
  %.2237 = fmul double %.1431, %.2001
  %.2238 = fsub double %.2236, %.2237
  %.2239 = fmul double %.1431, %.1843
  %.2240 = fmul double %.1589, %.1716
  %.2241 = fsub double %.2239, %.2240
  %.2242 = fmul double %.1304, %.2001
  %.2243 = fmul double %.1716, %.1716
  %.2244 = fsub double %.2242, %.2243
  %.2245 = fmul double %.1431, %.1716
  %.2246 = fmul double %.1304, %.1843
  %.2247 = fsub double %.2245, %.2246
  %.2248 = fmul double %.1304, %.1589
  %.2249 = fmul double %.1431, %.1431
  %.2250 = fsub double %.2248, %.2249
  %.2251 = fmul double %.1304, %.2235
  %.2252 = fmul double %.1431, %.2238
  %.2253 = fadd double %.2251, %.2252
  %.2254 = fmul double %.1716, %.2241
  %.2255 = fadd double %.2254, %.2253
  %.2256 = fmul double %.2235, %.2103
  %.2257 = fmul double %.2238, %.2167
  %.2258 = fadd double %.2256, %.2257
  %.2259 = fmul double %.2241, %.2230
  %.2260 = fadd double %.2258, %.2259
  %.2264 = fdiv double %.2260, %.2255
  %.2268 = fmul double %.2238, %.2103
  %.2269 = fmul double %.2244, %.2167
  %.2270 = fadd double %.2268, %.2269
  %.2271 = fmul double %.2247, %.2230
  %.2272 = fadd double %.2270, %.2271
  %.2276 = fdiv double %.2272, %.2255
  %.2280 = fmul double %.2241, %.2103
  %.2281 = fmul double %.2247, %.2167
  %.2282 = fadd double %.2280, %.2281
  %.2283 = fmul double %.2250, %.2230
  %.2284 = fadd double %.2282, %.2283
  %.2288 = fdiv double %.2284, %.2255
  %.2477 = fmul double %.259, %.2264
  %.2480 = fmul double %.228, %.2276
  %.2481 = fsub double %.2477, %.2480
  %.2484 = fmul double %.228, %.2264
  %.2489 = fmul double %.259, %.2276
  %.2492 = fadd double %.2484, %.2489
  %.2522 = getelementptr i8, ptr %arg.dy.4, i64 40
  store double %.2481, ptr %.2522, align 8
  %.2553 = getelementptr i8, ptr %arg.dy.4, i64 48
  store double %.2492, ptr %.2553, align 8
  %.2585 = getelementptr i8, ptr %arg.dy.4, i64 56
  store double %.2288, ptr %.2585, align 8
  %.2615 = getelementptr i8, ptr %arg.f.4, i64 48
  %.2616 = load double, ptr %.2615, align 8
  %.2621 = fdiv double %.2616, %.1109
  %.2652 = getelementptr i8, ptr %arg.f.4, i64 96
  %.2653 = load double, ptr %.2652, align 8
  %.2682 = getelementptr i8, ptr %arg.f.4, i64 56
  %.2683 = load double, ptr %.2682, align 8
  %.2685 = fmul double %.2288, %.2683
  %.2687 = fadd double %.2264, %.2685
  %.2716 = getelementptr i8, ptr %arg.f.4, i64 72
  %.2717 = load double, ptr %.2716, align 8
  %.2718 = fadd double %.2717, %.2687
  %.2719 = fmul double %.2653, %.2718
  %.2720 = fsub double %.2621, %.2719
  %.2749 = getelementptr i8, ptr %arg.f.4, i64 64
  %.2750 = load double, ptr %.2749, align 8
  %.2752 = fmul double %.2288, %.2750
  %.2754 = fadd double %.2276, %.2752
  %.2783 = getelementptr i8, ptr %arg.f.4, i64 80
  %.2784 = load double, ptr %.2783, align 8
  %.2785 = fadd double %.2784, %.2754
  %.2786 = fsub double %.2720, %.2785
  %.2815 = getelementptr i8, ptr %arg.f.4, i64 88
  %.2816 = load double, ptr %.2815, align 8
  %.2820 = fdiv double %.2786, %.2816
  %.2850 = getelementptr i8, ptr %arg.dy.4, i64 64
  store double %.2820, ptr %.2850, align 8
  %.2880 = getelementptr i8, ptr %arg.r.4, i64 48
  %.2881 = load double, ptr %.2880, align 8
  %.2886 = fdiv double %.2881, %.1140
  %.2917 = getelementptr i8, ptr %arg.r.4, i64 96
  %.2918 = load double, ptr %.2917, align 8
  %.2947 = getelementptr i8, ptr %arg.r.4, i64 56
  %.2948 = load double, ptr %.2947, align 8
  %.2950 = fmul double %.2288, %.2948
  %.2952 = fadd double %.2264, %.2950
  %.2983 = getelementptr i8, ptr %arg.r.4, i64 72
  %.2984 = load double, ptr %.2983, align 8
  %.2985 = fadd double %.2984, %.2952
  %.2986 = fmul double %.2918, %.2985
  %.2987 = fsub double %.2886, %.2986
  %.3016 = getelementptr i8, ptr %arg.r.4, i64 64
  %.3017 = load double, ptr %.3016, align 8
  %.3019 = fmul double %.2288, %.3017
  %.3023 = fadd double %.2276, %.3019
  %.3054 = getelementptr i8, ptr %arg.r.4, i64 80
  %.3055 = load double, ptr %.3054, align 8
  %.3056 = fadd double %.3055, %.3023
  %.3057 = fsub double %.2987, %.3056
  %.3086 = getelementptr i8, ptr %arg.r.4, i64 88
  %.3087 = load double, ptr %.3086, align 8
  %.3091 = fdiv double %.3057, %.3087
  %.3121 = getelementptr i8, ptr %arg.dy.4, i64 72
  store double %.3091, ptr %.3121, align 8
  %.3151 = getelementptr i8, ptr %arg.f.4, i64 168
  %.3152 = load double, ptr %.3151, align 8
  %.3181 = getelementptr i8, ptr %arg.r.4, i64 168
  %.3182 = load double, ptr %.3181, align 8
  %.3211 = getelementptr i8, ptr %arg.f.4, i64 104
  %.3212 = load double, ptr %.3211, align 8
  %.3241 = getelementptr i8, ptr %arg.r.4, i64 104
  %.3242 = load double, ptr %.3241, align 8
  %.3243 = fadd double %.3212, %.3242
  %.3272 = getelementptr i8, ptr %arg.dy.4, i64 80
  store double %.3152, ptr %.3272, align 8
  %.3303 = getelementptr i8, ptr %arg.dy.4, i64 88
  store double %.3182, ptr %.3303, align 8
  %.3333 = getelementptr i8, ptr %arg.dy.4, i64 96
  store double %.3243, ptr %.3333, align 8
  %.3364 = getelementptr i8, ptr %arg.y.4, i64 104
  %.3365 = load double, ptr %.3364, align 8
  %.3399 = getelementptr i8, ptr %arg.f.4, i64 160
  %.3400 = load double, ptr %.3399, align 8
  %.3434 = getelementptr i8, ptr %arg.r.4, i64 160
  %.3435 = load double, ptr %.3434, align 8
  %sunkaddr = getelementptr i8, ptr %arg.ground.4, i64 32
  %.53.i = load double, ptr %sunkaddr, align 8
  %.54.i = fcmp ugt double %.53.i, 0.000000e+00
  br i1 %.54.i, label %B42.endif.endif.endif.i, label %B1984.endif.endif.endif.endif.endif.endif

B182.i:
  %.203.i = fcmp ole double %.3365, 0.000000e+00
  %.208.i8 = fcmp olt double %.13.i2.i, 0.000000e+00
  %or.cond83.i = select i1 %.203.i, i1 %.208.i8, i1 false
  br i1 %or.cond83.i, label %B1984.endif.endif.endif.endif.endif.endif, label %B210.i

B210.i:
  %.249.i = getelementptr i8, ptr %arg.ground.4, i64 40
  %.250.i = load double, ptr %.249.i, align 8
  %.260.i = fdiv double %.13.i2.i, %.250.i
  br label %B1984.endif.endif.endif.endif.endif.endif

B42.endif.endif.endif.i:
  %.12.i3 = fcmp ogt double %.3435, %.3400
  %.13.i4 = select i1 %.12.i3, double %.3435, double %.3400
  %.98.i = fsub double %.53.i, %.13.i4
  %.134.i7 = fdiv double %.98.i, %.53.i
  %.12.i.i = fcmp olt double %.134.i7, -1.000000e+00
  %.13.i.i = select i1 %.12.i.i, double -1.000000e+00, double %.134.i7
  %.12.i1.i = fcmp ogt double %.13.i.i, 1.000000e+00
  %.13.i2.i = select i1 %.12.i1.i, double 1.000000e+00, double %.13.i.i
  %.197.i = fcmp oge double %.3365, 1.000000e+00
  %.200.i = fcmp ogt double %.13.i2.i, 0.000000e+00
  %or.cond.i = select i1 %.197.i, i1 %.200.i, i1 false
  br i1 %or.cond.i, label %B1984.endif.endif.endif.endif.endif.endif, label %B182.i

B1984.endif.endif.endif.endif.endif.endif:
  %.260.sink.i = phi double [ %.260.i, %B210.i ], [ 0.000000e+00, %B1984.endif.endif.endif.endif.endif ], [ 0.000000e+00, %B182.i ], [ 0.000000e+00, %B42.endif.endif.endif.i ]
  %.3529 = getelementptr i8, ptr %arg.dy.4, i64 104
  store double %.260.sink.i, ptr %.3529, align 8
  store double %bar.2.0, ptr %retptr, align 8
  br label %common.ret
}

define internal i32 @_keep(ptr noalias %retptr, ptr noalias %excinfo, ptr %arg.kept.0, ptr %arg.kept.1, i64 %arg.kept.2, i64 %arg.kept.3, ptr %arg.kept.4, i64 %arg.kept.5.0, i64 %arg.kept.5.1, i64 %arg.kept.6.0, i64 %arg.kept.6.1, ptr %arg.states.0, ptr %arg.states.1, i64 %arg.states.2, i64 %arg.states.3, ptr %arg.states.4, i64 %arg.states.5.0, i64 %arg.states.5.1, i64 %arg.states.6.0, i64 %arg.states.6.1, i64 %arg.n, ptr %arg.y.0, ptr %arg.y.1, i64 %arg.y.2, i64 %arg.y.3, ptr %arg.y.4, i64 %arg.y.5.0, i64 %arg.y.6.0, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, double %arg.bar, ptr %arg.f.0, ptr %arg.f.1, i64 %arg.f.2, i64 %arg.f.3, ptr %arg.f.4, i64 %arg.f.5.0, i64 %arg.f.6.0, ptr %arg.r.0, ptr %arg.r.1, i64 %arg.r.2, i64 %arg.r.3, ptr %arg.r.4, i64 %arg.r.5.0, i64 %arg.r.6.0) {
B0.endif.endif:
  %.283 = icmp slt i64 %arg.n, 0
  %.284 = select i1 %.283, i64 %arg.states.5.1, i64 0
  %invariant.gep = getelementptr double, ptr %arg.states.4, i64 %arg.n
  %invariant.gep785 = getelementptr double, ptr %invariant.gep, i64 %.284
  %.254 = load double, ptr %arg.y.4, align 8
  store double %.254, ptr %invariant.gep785, align 8
  %0 = getelementptr i8, ptr %arg.y.4, i64 8
  %.254.1 = load double, ptr %0, align 8
  %gep786.1 = getelementptr double, ptr %invariant.gep785, i64 %arg.states.5.1
  store double %.254.1, ptr %gep786.1, align 8
  %1 = getelementptr i8, ptr %arg.y.4, i64 16
  %.254.2 = load double, ptr %1, align 8
  %gep786.2.idx = shl i64 %arg.states.5.1, 4
  %gep786.2 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.2.idx
  store double %.254.2, ptr %gep786.2, align 8
  %2 = getelementptr i8, ptr %arg.y.4, i64 24
  %.254.3 = load double, ptr %2, align 8
  %gep786.3.idx = mul i64 %arg.states.5.1, 24
  %gep786.3 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.3.idx
  store double %.254.3, ptr %gep786.3, align 8
  %3 = getelementptr i8, ptr %arg.y.4, i64 32
  %.254.4 = load double, ptr %3, align 8
  %gep786.4.idx = shl i64 %arg.states.5.1, 5
  %gep786.4 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.4.idx
  store double %.254.4, ptr %gep786.4, align 8
  %4 = getelementptr i8, ptr %arg.y.4, i64 40
  %.254.5 = load double, ptr %4, align 8
  %gep786.5.idx = mul i64 %arg.states.5.1, 40
  %gep786.5 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.5.idx
  store double %.254.5, ptr %gep786.5, align 8
  %5 = getelementptr i8, ptr %arg.y.4, i64 48
  %.254.6 = load double, ptr %5, align 8
  %gep786.6.idx = mul i64 %arg.states.5.1, 48
  %gep786.6 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.6.idx
  store double %.254.6, ptr %gep786.6, align 8
  %6 = getelementptr i8, ptr %arg.y.4, i64 56
  %.254.7 = load double, ptr %6, align 8
  %gep786.7.idx = mul i64 %arg.states.5.1, 56
  %gep786.7 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.7.idx
  store double %.254.7, ptr %gep786.7, align 8
  %7 = getelementptr i8, ptr %arg.y.4, i64 64
  %.254.8 = load double, ptr %7, align 8
  %gep786.8.idx = shl i64 %arg.states.5.1, 6
  %gep786.8 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.8.idx
  store double %.254.8, ptr %gep786.8, align 8
  %8 = getelementptr i8, ptr %arg.y.4, i64 72
  %.254.9 = load double, ptr %8, align 8
  %gep786.9.idx = mul i64 %arg.states.5.1, 72
  %gep786.9 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.9.idx
  store double %.254.9, ptr %gep786.9, align 8
  %9 = getelementptr i8, ptr %arg.y.4, i64 80
  %.254.10 = load double, ptr %9, align 8
  %gep786.10.idx = mul i64 %arg.states.5.1, 80
  %gep786.10 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.10.idx
  store double %.254.10, ptr %gep786.10, align 8
  %10 = getelementptr i8, ptr %arg.y.4, i64 88
  %.254.11 = load double, ptr %10, align 8
  %gep786.11.idx = mul i64 %arg.states.5.1, 88
  %gep786.11 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.11.idx
  store double %.254.11, ptr %gep786.11, align 8
  %11 = getelementptr i8, ptr %arg.y.4, i64 96
  %.254.12 = load double, ptr %11, align 8
  %gep786.12.idx = mul i64 %arg.states.5.1, 96
  %gep786.12 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.12.idx
  store double %.254.12, ptr %gep786.12, align 8
  %12 = getelementptr i8, ptr %arg.y.4, i64 104
  %.254.13 = load double, ptr %12, align 8
  %gep786.13.idx = mul i64 %arg.states.5.1, 104
  %gep786.13 = getelementptr i8, ptr %invariant.gep785, i64 %gep786.13.idx
  store double %.254.13, ptr %gep786.13, align 8
  %.674 = select i1 %.283, i64 %arg.kept.5.1, i64 0
  %.675 = add i64 %.674, %arg.n
  %invariant.gep794 = getelementptr double, ptr %arg.kept.4, i64 %.675
  %.584 = getelementptr i8, ptr %arg.f.4, i64 112
  %.585 = load double, ptr %.584, align 8
  %.613 = getelementptr i8, ptr %arg.f.4, i64 120
  %.614 = load double, ptr %.613, align 8
  %.642 = getelementptr i8, ptr %arg.f.4, i64 128
  %.643 = load double, ptr %.642, align 8
  store double %.585, ptr %invariant.gep794, align 8
  %gep796.idx = shl i64 %arg.kept.5.1, 4
  %gep796 = getelementptr i8, ptr %invariant.gep794, i64 %gep796.idx
  store double %.614, ptr %gep796, align 8
  %gep798.idx = shl i64 %arg.kept.5.1, 5
  %gep798 = getelementptr i8, ptr %invariant.gep794, i64 %gep798.idx
  store double %.643, ptr %gep798, align 8
  %.839 = getelementptr i8, ptr %arg.f.4, i64 136
  %.840 = load double, ptr %.839, align 8
  %.868 = getelementptr i8, ptr %arg.f.4, i64 144
  %.869 = load double, ptr %.868, align 8
  %.897 = getelementptr i8, ptr %arg.f.4, i64 152
  %.898 = load double, ptr %.897, align 8
  %.926 = getelementptr i8, ptr %arg.f.4, i64 160
  %.927 = load double, ptr %.926, align 8
  %gep800.idx = mul i64 %arg.kept.5.1, 48
  %gep800 = getelementptr i8, ptr %invariant.gep794, i64 %gep800.idx
  store double %.840, ptr %gep800, align 8
  %gep802.idx = shl i64 %arg.kept.5.1, 6
  %gep802 = getelementptr i8, ptr %invariant.gep794, i64 %gep802.idx
  store double %.869, ptr %gep802, align 8
  %gep804.idx = mul i64 %arg.kept.5.1, 80
  %gep804 = getelementptr i8, ptr %invariant.gep794, i64 %gep804.idx
  store double %.898, ptr %gep804, align 8
  %gep806.idx = mul i64 %arg.kept.5.1, 96
  %gep806 = getelementptr i8, ptr %invariant.gep794, i64 %gep806.idx
  store double %.927, ptr %gep806, align 8
  %.584.1 = getelementptr i8, ptr %arg.r.4, i64 112
  %.585.1 = load double, ptr %.584.1, align 8
  %.613.1 = getelementptr i8, ptr %arg.r.4, i64 120
  %.614.1 = load double, ptr %.613.1, align 8
  %.642.1 = getelementptr i8, ptr %arg.r.4, i64 128
  %.643.1 = load double, ptr %.642.1, align 8
  %gep.1 = getelementptr double, ptr %invariant.gep794, i64 %arg.kept.5.1
  store double %.585.1, ptr %gep.1, align 8
  %gep796.1.idx = mul i64 %arg.kept.5.1, 24
  %gep796.1 = getelementptr i8, ptr %invariant.gep794, i64 %gep796.1.idx
  store double %.614.1, ptr %gep796.1, align 8
  %gep798.1.idx = mul i64 %arg.kept.5.1, 40
  %gep798.1 = getelementptr i8, ptr %invariant.gep794, i64 %gep798.1.idx
  store double %.643.1, ptr %gep798.1, align 8
  %.839.1 = getelementptr i8, ptr %arg.r.4, i64 136
  %.840.1 = load double, ptr %.839.1, align 8
  %.868.1 = getelementptr i8, ptr %arg.r.4, i64 144
  %.869.1 = load double, ptr %.868.1, align 8
  %.897.1 = getelementptr i8, ptr %arg.r.4, i64 152
  %.898.1 = load double, ptr %.897.1, align 8
  %.926.1 = getelementptr i8, ptr %arg.r.4, i64 160
  %.927.1 = load double, ptr %.926.1, align 8
  %gep800.1.idx = mul i64 %arg.kept.5.1, 56
  %gep800.1 = getelementptr i8, ptr %invariant.gep794, i64 %gep800.1.idx
  store double %.840.1, ptr %gep800.1, align 8
  %gep802.1.idx = mul i64 %arg.kept.5.1, 72
  %gep802.1 = getelementptr i8, ptr %invariant.gep794, i64 %gep802.1.idx
  store double %.869.1, ptr %gep802.1, align 8
  %gep804.1.idx = mul i64 %arg.kept.5.1, 88
  %gep804.1 = getelementptr i8, ptr %invariant.gep794, i64 %gep804.1.idx
  store double %.898.1, ptr %gep804.1, align 8
  %gep806.1.idx = mul i64 %arg.kept.5.1, 104
  %gep806.1 = getelementptr i8, ptr %invariant.gep794, i64 %gep806.1.idx
  store double %.927.1, ptr %gep806.1, align 8
  %.1225 = load double, ptr %4, align 8
  %.1257 = fmul double %.1225, %.1225
  %.1288 = load double, ptr %5, align 8
  %.1320 = fmul double %.1288, %.1288
  %.1321 = fadd double %.1257, %.1320
  %.1351 = load double, ptr %arg.p.4, align 8
  %.1352 = fmul double %.1351, 5.000000e-01
  %.1353 = fmul double %.1352, %.1321
  %.1382 = getelementptr i8, ptr %arg.p.4, i64 8
  %.1383 = load double, ptr %.1382, align 8
  %.1384 = fmul double %.1383, 5.000000e-01
  %.1415 = load double, ptr %6, align 8
  %.1416 = fmul double %.1384, %.1415
  %.1448 = fmul double %.1415, %.1416
  %.1449 = fadd double %.1353, %.1448
  %.1480 = fmul double %.1351, 0x40239D013A92A305
  %.1510 = load double, ptr %0, align 8
  %.1516 = fmul double %.1480, %.1510
  %.1517 = fadd double %.1516, %.1449
  %.1553 = getelementptr i8, ptr %arg.p.4, i64 56
  %.1554 = load double, ptr %.1553, align 8
  %.1555 = fcmp ogt double %.1554, 0.000000e+00
  br i1 %.1555, label %B864, label %common.ret

B864:
  %.1559 = fmul double %arg.bar, %arg.bar
  %.1595 = fmul double %.1554, 2.000000e+00
  %.1599 = fdiv double %.1559, %.1595
  %.1601 = fadd double %.1517, %.1599
  br label %common.ret

common.ret:
  %p.sroa.0.0 = phi ptr [ null, %B864 ], [ %arg.p.0, %B0.endif.endif ]
  %energy.2.0 = phi double [ %.1601, %B864 ], [ %.1517, %B0.endif.endif ]
  %.1642 = getelementptr i8, ptr %arg.f.4, i64 184
  %.1643 = load double, ptr %.1642, align 8
  %.1650 = fadd double %energy.2.0, %.1643
  %.1681 = getelementptr i8, ptr %arg.r.4, i64 184
  %.1682 = load double, ptr %.1681, align 8
  %.1688 = fadd double %.1650, %.1682
  %.idx = mul i64 %arg.kept.5.1, 112
  %13 = getelementptr i8, ptr %arg.kept.4, i64 %.idx
  %.1743 = getelementptr double, ptr %13, i64 %.675
  store double %arg.bar, ptr %.1743, align 8
  %.idx784 = mul i64 %arg.kept.5.1, 120
  %14 = getelementptr i8, ptr %arg.kept.4, i64 %.idx784
  %.1802 = getelementptr double, ptr %14, i64 %.675
  store double %.1688, ptr %.1802, align 8
  store ptr null, ptr %retptr, align 8
  ret i32 0
}

define internal i32 @_watch(ptr noalias %retptr, ptr noalias %excinfo, ptr %arg.g.0, ptr %arg.g.1, i64 %arg.g.2, i64 %arg.g.3, ptr %arg.g.4, i64 %arg.g.5.0, i64 %arg.g.6.0, ptr %arg.y.0, ptr %arg.y.1, i64 %arg.y.2, i64 %arg.y.3, ptr %arg.y.4, i64 %arg.y.5.0, i64 %arg.y.6.0, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, double %arg.step, ptr %arg.f.0, ptr %arg.f.1, i64 %arg.f.2, i64 %arg.f.3, ptr %arg.f.4, i64 %arg.f.5.0, i64 %arg.f.6.0, ptr %arg.r.0, ptr %arg.r.1, i64 %arg.r.2, i64 %arg.r.3, ptr %arg.r.4, i64 %arg.r.5.0, i64 %arg.r.6.0) {
B0.endif.endif.endif.endif.endif.endif.endif.endif.endif:
  %.98 = getelementptr i8, ptr %arg.y.4, i64 16
  %.99 = load double, ptr %.98, align 8
  %.100 = tail call double @llvm.sin.f64(double %.99)
  %.159 = getelementptr i8, ptr %arg.p.4, i64 80
  %.160 = load double, ptr %.159, align 8
  %.189 = getelementptr i8, ptr %arg.p.4, i64 592
  %.190 = load double, ptr %.189, align 8
  %.219 = getelementptr i8, ptr %arg.y.4, i64 8
  %.220 = load double, ptr %.219, align 8
  %.248 = getelementptr i8, ptr %arg.p.4, i64 24
  %.249 = load double, ptr %.248, align 8
  %.250 = fsub double %.220, %.249
  %.251 = fmul double %.160, %.100
  %.252 = fadd double %.251, %.250
  %0 = fmul double %.100, %.190
  %.313 = fadd double %0, %.250
  %.342 = getelementptr i8, ptr %arg.p.4, i64 176
  %.343 = load double, ptr %.342, align 8
  %.372 = getelementptr i8, ptr %arg.f.4, i64 112
  %.373 = load double, ptr %.372, align 8
  %.374 = fmul double %.343, %.373
  %.403 = getelementptr i8, ptr %arg.p.4, i64 688
  %.404 = load double, ptr %.403, align 8
  %.432 = getelementptr i8, ptr %arg.r.4, i64 112
  %.433 = load double, ptr %.432, align 8
  %.434 = fmul double %.404, %.433
  %.435 = fadd double %.374, %.434
  %.465 = load double, ptr %arg.g.4, align 8
  %.12.i = fcmp ogt double %.252, %.465
  %.13.i = select i1 %.12.i, double %.252, double %.465
  %.130 = tail call double @llvm.cos.f64(double %.99)
  %.524 = getelementptr i8, ptr %arg.g.4, i64 8
  %.525 = load double, ptr %.524, align 8
  %.554 = getelementptr i8, ptr %arg.y.4, i64 48
  %.555 = load double, ptr %.554, align 8
  %.556 = fmul double %.160, %.130
  %.585 = getelementptr i8, ptr %arg.y.4, i64 56
  %.586 = load double, ptr %.585, align 8
  %.587 = fmul double %.556, %.586
  %.588 = fadd double %.555, %.587
  %.12.i1 = fcmp ogt double %.588, %.525
  %.13.i2 = select i1 %.12.i1, double %.588, double %.525
  store double %.13.i, ptr %arg.g.4, align 8
  store double %.13.i2, ptr %.524, align 8
  %.705 = getelementptr i8, ptr %arg.g.4, i64 24
  %.706 = load double, ptr %.705, align 8
  %.12.i3 = fcmp ogt double %.313, %.706
  %.13.i4 = select i1 %.12.i3, double %.313, double %.706
  %.763 = getelementptr i8, ptr %arg.g.4, i64 16
  %.764 = load double, ptr %.763, align 8
  %.765 = fneg double %.313
  %.12.i5 = fcmp olt double %.764, %.765
  %.13.i6 = select i1 %.12.i5, double %.765, double %.764
  %.822 = getelementptr i8, ptr %arg.g.4, i64 32
  %.823 = load double, ptr %.822, align 8
  %.852 = load double, ptr %.98, align 8
  %.12.i7 = fcmp ogt double %.852, %.823
  %.13.i8 = select i1 %.12.i7, double %.852, double %.823
  store double %.13.i4, ptr %.705, align 8
  store double %.13.i6, ptr %.763, align 8
  store double %.13.i8, ptr %.822, align 8
  %.1002 = getelementptr i8, ptr %arg.f.4, i64 136
  %.1003 = load double, ptr %.1002, align 8
  %.1032 = getelementptr i8, ptr %arg.f.4, i64 152
  %.1033 = load double, ptr %.1032, align 8
  %.1034 = fsub double %.1003, %.1033
  %.1063 = getelementptr i8, ptr %arg.p.4, i64 96
  %.1064 = load double, ptr %.1063, align 8
  %.1093 = getelementptr i8, ptr %arg.p.4, i64 104
  %.1094 = load double, ptr %.1093, align 8
  %.1098 = fdiv double %.1064, %.1094
  %.1099 = fsub double %.1034, %.1098
  %.1128 = getelementptr i8, ptr %arg.g.4, i64 40
  %.1129 = load double, ptr %.1128, align 8
  %.12.i9 = fcmp ogt double %.1099, %.1129
  %.13.i10 = select i1 %.12.i9, double %.1099, double %.1129
  %.1186 = getelementptr i8, ptr %arg.g.4, i64 48
  %.1187 = load double, ptr %.1186, align 8
  %.12.i11 = fcmp olt double %.435, %.1187
  %.13.i12 = select i1 %.12.i11, double %.435, double %.1187
  store double %.13.i10, ptr %.1128, align 8
  store double %.13.i12, ptr %.1186, align 8
  %.1305 = load double, ptr %.342, align 8
  %.1335 = load double, ptr %.1063, align 8
  %.1336 = fmul double %.1305, %.1335
  %.1366 = load double, ptr %.403, align 8
  %.1395 = getelementptr i8, ptr %arg.p.4, i64 608
  %.1396 = load double, ptr %.1395, align 8
  %.1397 = fmul double %.1366, %.1396
  %.1398 = fadd double %.1336, %.1397
  %.1426 = getelementptr i8, ptr %arg.p.4, i64 1104
  %.1427 = load double, ptr %.1426, align 8
  %.1459 = getelementptr i8, ptr %arg.f.4, i64 120
  %.1460 = load double, ptr %.1459, align 8
  %.1488 = getelementptr i8, ptr %arg.r.4, i64 120
  %.1489 = load double, ptr %.1488, align 8
  %.1490 = fadd double %.1460, %.1489
  %.1491 = fmul double %.1427, %.1490
  %.1492 = fadd double %.1398, %.1491
  %.1493 = fsub double %.1492, %.435
  %.1522 = getelementptr i8, ptr %arg.g.4, i64 56
  %.1523 = load double, ptr %.1522, align 8
  %.1524 = fmul double %.1493, %.1493
  %.1525 = fadd double %.1523, %.1524
  store double %.1525, ptr %.1522, align 8
  %.1584 = getelementptr i8, ptr %arg.f.4, i64 160
  %.1585 = load double, ptr %.1584, align 8
  %.1613 = getelementptr i8, ptr %arg.r.4, i64 160
  %.1614 = load double, ptr %.1613, align 8
  %.12.i13 = fcmp ogt double %.1614, %.1585
  %.13.i14 = select i1 %.12.i13, double %.1614, double %.1585
  %.1646 = fcmp ogt double %.13.i14, 3.000000e-01
  br i1 %.1646, label %B1574, label %B1616

B1574:
  %.1676 = getelementptr i8, ptr %arg.g.4, i64 64
  %.1677 = load double, ptr %.1676, align 8
  %.1679 = fadd double %arg.step, %.1677
  store double %.1679, ptr %.1676, align 8
  br label %B1616

B1616:
  %sunkaddr = getelementptr i8, ptr %arg.f.4, i64 112
  %.1740 = load double, ptr %sunkaddr, align 8
  %.1746 = fcmp ugt double %.1740, 0.000000e+00
  br i1 %.1746, label %common.ret, label %B1640

common.ret:
  store ptr null, ptr %retptr, align 8
  ret i32 0

B1640:
  %.1776 = getelementptr i8, ptr %arg.g.4, i64 96
  %.1777 = load double, ptr %.1776, align 8
  %.1779 = fadd double %arg.step, %.1777
  store double %.1779, ptr %.1776, align 8
  br label %common.ret
}

declare double @llvm.cos.f64(double)

declare double @llvm.sin.f64(double)

declare void @llvm.memset.p0.i64(ptr, i8, i64, i1 immarg)

declare i64 @llvm.smin.i64(i64, i64)

declare i64 @llvm.smax.i64(i64, i64)

define internal i32 @axle_acts(ptr noalias %retptr, ptr noalias %excinfo, i64 %arg.i, i64 %arg.at, ptr %arg.y.0, ptr %arg.y.1, i64 %arg.y.2, i64 %arg.y.3, ptr %arg.y.4, i64 %arg.y.5.0, i64 %arg.y.6.0, double %arg.sine, double %arg.cosine, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0, ptr %arg.paths.0, ptr %arg.paths.1, i64 %arg.paths.2, i64 %arg.paths.3, ptr %arg.paths.4, i64 %arg.paths.5.0, i64 %arg.paths.5.1, i64 %arg.paths.5.2, i64 %arg.paths.6.0, i64 %arg.paths.6.1, i64 %arg.paths.6.2, ptr %arg.hinges.0, ptr %arg.hinges.1, i64 %arg.hinges.2, i64 %arg.hinges.3, ptr %arg.hinges.4, i64 %arg.hinges.5.0, i64 %arg.hinges.5.1, i64 %arg.hinges.5.2, i64 %arg.hinges.5.3, i64 %arg.hinges.5.4, i64 %arg.hinges.6.0, i64 %arg.hinges.6.1, i64 %arg.hinges.6.2, i64 %arg.hinges.6.3, i64 %arg.hinges.6.4, i64 %arg.row, ptr %arg.ground.0, ptr %arg.ground.1, i64 %arg.ground.2, i64 %arg.ground.3, ptr %arg.ground.4, i64 %arg.ground.5.0, i64 %arg.ground.6.0, ptr %arg.heights.0, ptr %arg.heights.1, i64 %arg.heights.2, i64 %arg.heights.3, ptr %arg.heights.4, i64 %arg.heights.5.0, i64 %arg.heights.6.0, double %arg.spacing, double %arg.force, double %arg.torque, ptr %arg.out.0, ptr %arg.out.1, i64 %arg.out.2, i64 %arg.out.3, ptr %arg.out.4, i64 %arg.out.5.0, i64 %arg.out.6.0) {
B0.endif:
  %.1382 = alloca [2 x double], align 8
  %excinfo.8 = alloca ptr, align 8
  call void @llvm.memset.p0.i64(ptr nonnull align 8 dereferenceable(16) %.1382, i8 0, i64 16, i1 false)
  %.175 = icmp slt i64 %arg.i, -3
  %.176 = select i1 %.175, i64 %arg.y.5.0, i64 0
  %0 = getelementptr double, ptr %arg.y.4, i64 %arg.i
  %1 = getelementptr i8, ptr %0, i64 24
  %.190 = getelementptr double, ptr %1, i64 %.176
  %.191 = load double, ptr %.190, align 8
  %.208 = icmp slt i64 %arg.i, -8
  %.209 = select i1 %.208, i64 %arg.y.5.0, i64 0
  %2 = getelementptr i8, ptr %0, i64 64
  %.223 = getelementptr double, ptr %2, i64 %.209
  %.224 = load double, ptr %.223, align 8
  %.254 = getelementptr i8, ptr %arg.y.4, i64 56
  %.255 = load double, ptr %.254, align 8
  %.238.i = icmp slt i64 %arg.i, 0
  %.239.i = select i1 %.238.i, i64 %arg.paths.5.0, i64 0
  %.240.i = add i64 %.239.i, %arg.i
  %.268.i = mul i64 %arg.paths.5.2, %arg.paths.5.1
  %.270.i = mul i64 %.268.i, %.240.i
  %3 = getelementptr double, ptr %arg.paths.4, i64 %.270.i
  %4 = getelementptr double, ptr %3, i64 %arg.paths.5.2
  %5 = getelementptr i8, ptr %3, i64 40
  %.277.i = load double, ptr %5, align 8
  %.365.i = getelementptr i8, ptr %4, i64 40
  %.366.i = load double, ptr %.365.i, align 8
  %6 = getelementptr i8, ptr %3, i64 32
  %.277.1.i = load double, ptr %6, align 8
  %.365.1.i = getelementptr i8, ptr %4, i64 32
  %.366.1.i = load double, ptr %.365.1.i, align 8
  %7 = getelementptr i8, ptr %3, i64 24
  %.277.2.i = load double, ptr %7, align 8
  %.365.2.i = getelementptr i8, ptr %4, i64 24
  %.366.2.i = load double, ptr %.365.2.i, align 8
  %8 = getelementptr i8, ptr %3, i64 16
  %.277.3.i = load double, ptr %8, align 8
  %.365.3.i = getelementptr i8, ptr %4, i64 16
  %.366.3.i = load double, ptr %.365.3.i, align 8
  %9 = getelementptr i8, ptr %3, i64 8
  %.277.4.i = load double, ptr %9, align 8
  %.365.4.i = getelementptr i8, ptr %4, i64 8
  %.366.4.i = load double, ptr %.365.4.i, align 8
  %.177.i = fmul double %.191, 0.000000e+00
  %.278.i = fadd double %.177.i, %.277.i
  %.198.1.i = fmul double %.191, %.278.i
  %.278.1.i = fadd double %.198.1.i, %.277.1.i
  %.198.2.i = fmul double %.191, %.278.1.i
  %.278.2.i = fadd double %.198.2.i, %.277.2.i
  %.198.3.i = fmul double %.191, %.278.2.i
  %.278.3.i = fadd double %.198.3.i, %.277.3.i
  %.198.4.i = fmul double %.191, %.278.3.i
  %.278.4.i = fadd double %.198.4.i, %.277.4.i
  %.198.5.i = fmul double %.191, %.278.4.i
  %.277.5.i = load double, ptr %3, align 8
  %.278.5.i = fadd double %.198.5.i, %.277.5.i
  %.182.i = fadd double %.177.i, 0.000000e+00
  %.177.1.i = fmul double %.191, %.182.i
  %.192.1.i = fadd double %.177.1.i, %.278.i
  %.188.2.i = fmul double %.191, %.192.1.i
  %.192.2.i = fadd double %.278.1.i, %.188.2.i
  %.188.3.i = fmul double %.191, %.192.2.i
  %.192.3.i = fadd double %.278.2.i, %.188.3.i
  %.188.4.i = fmul double %.191, %.192.3.i
  %.192.4.i = fadd double %.278.3.i, %.188.4.i
  %.188.5.i = fmul double %.191, %.192.4.i
  %.192.5.i = fadd double %.278.4.i, %.188.5.i
  %.181.5.i = fmul double %.192.4.i, 2.000000e+00
  %.181.4.i = fmul double %.192.3.i, 2.000000e+00
  %.181.3.i = fmul double %.192.2.i, 2.000000e+00
  %.181.2.i = fmul double %.192.1.i, 2.000000e+00
  %.181.1.i = fmul double %.182.i, 2.000000e+00
  %.182.1.i = fadd double %.181.1.i, %.177.1.i
  %.177.2.i = fmul double %.191, %.182.1.i
  %.182.2.i = fadd double %.177.2.i, %.181.2.i
  %.177.3.i = fmul double %.191, %.182.2.i
  %.182.3.i = fadd double %.181.3.i, %.177.3.i
  %.177.4.i = fmul double %.191, %.182.3.i
  %.182.4.i = fadd double %.181.4.i, %.177.4.i
  %.177.5.i = fmul double %.191, %.182.4.i
  %.182.5.i = fadd double %.181.5.i, %.177.5.i
  %.369.i = fmul double %.366.i, 5.000000e+00
  %.372.i = fadd double %.177.i, %.369.i
  %.287.1.i = fmul double %.191, %.372.i
  %.369.1.i = fmul double %.366.1.i, 4.000000e+00
  %.372.1.i = fadd double %.287.1.i, %.369.1.i
  %.287.2.i = fmul double %.191, %.372.1.i
  %.369.2.i = fmul double %.366.2.i, 3.000000e+00
  %.372.2.i = fadd double %.287.2.i, %.369.2.i
  %.287.3.i = fmul double %.191, %.372.2.i
  %.369.3.i = fmul double %.366.3.i, 2.000000e+00
  %.372.3.i = fadd double %.287.3.i, %.369.3.i
  %.287.4.i = fmul double %.191, %.372.3.i
  %.372.4.i = fadd double %.366.4.i, %.287.4.i
  %.347 = icmp slt i64 %arg.at, 0
  %.348 = select i1 %.347, i64 %arg.p.5.0, i64 0
  %10 = getelementptr double, ptr %arg.p.4, i64 %arg.at
  %.362 = getelementptr double, ptr %10, i64 %.348
  %.363 = load double, ptr %.362, align 8
  %.364 = fadd double %.278.5.i, %.363
  %.393 = getelementptr i8, ptr %arg.p.4, i64 24
  %.394 = load double, ptr %.393, align 8
  %.423 = getelementptr i8, ptr %arg.p.4, i64 16
  %.424 = load double, ptr %.423, align 8
  %.425 = fsub double %.394, %.424
  %.427 = fsub double %.191, %.425
  %.436 = fmul double %.224, %.192.5.i
  %.439 = fmul double %.255, %.427
  %.440 = fsub double %.436, %.439
  %.443 = fmul double %.255, %.364
  %.445 = fadd double %.224, %.443
  %.455 = fmul double %arg.sine, %.364
  %.458 = fmul double %arg.cosine, %.427
  %.459 = fadd double %.455, %.458
  %.492 = getelementptr i8, ptr %arg.y.4, i64 40
  %.493 = load double, ptr %.492, align 8
  %.495 = fmul double %arg.cosine, %.440
  %.496 = fadd double %.493, %.495
  %.498 = fmul double %arg.sine, %.445
  %.499 = fsub double %.496, %.498
  %.529 = getelementptr i8, ptr %arg.y.4, i64 48
  %.530 = load double, ptr %.529, align 8
  %.532 = fmul double %arg.sine, %.440
  %.533 = fadd double %.530, %.532
  %.535 = fmul double %arg.cosine, %.445
  %.536 = fadd double %.535, %.533
  %.571 = getelementptr i8, ptr %arg.y.4, i64 8
  %.572 = load double, ptr %.571, align 8
  %.573 = fadd double %.572, %.459
  %.594 = icmp sgt i64 %arg.heights.5.0, 1
  br i1 %.594, label %B556, label %B740.endif

B556:
  %.448 = fmul double %arg.cosine, %.364
  %.451 = fmul double %arg.sine, %.427
  %.452 = fsub double %.448, %.451
  %.630 = load double, ptr %arg.y.4, align 8
  %.632 = fadd double %.452, %.630
  %.667 = fsub double %.632, %.363
  %.669 = icmp eq i64 %arg.i, 0
  br i1 %.669, label %B644, label %B672.endif

B644:
  %.705 = getelementptr i8, ptr %arg.p.4, i64 32
  %.706 = load double, ptr %.705, align 8
  br label %B672.endif

B886:
  %.962 = icmp slt i64 %arg.at, -4
  %.963 = select i1 %.962, i64 %arg.p.5.0, i64 0
  %11 = getelementptr i8, ptr %10, i64 32
  %.977 = getelementptr double, ptr %11, i64 %.963
  %.978 = load double, ptr %.977, align 8
  %.981 = fmul double %.499, %rise.2.0
  %.983 = fsub double %.981, %.536
  %.984 = fmul double %.983, %.978
  %.986 = fadd double %.13.i, %.984
  %.12.i5 = fcmp olt double %.986, 0.000000e+00
  %.13.i6 = select i1 %.12.i5, double 0.000000e+00, double %.986
  br label %B972

B972:
  %"$phi972.0.2.0" = phi double [ 0.000000e+00, %B740.endif ], [ %.13.i6, %B886 ]
  %.1027 = fsub double %.573, %road.3.0
  %.82.i = icmp slt i64 %arg.at, -11
  %.83.i = select i1 %.82.i, i64 %arg.p.5.0, i64 0
  %12 = getelementptr i8, ptr %10, i64 88
  %.97.i = getelementptr double, ptr %12, i64 %.83.i
  %.98.i = load double, ptr %.97.i, align 8
  %.99.i = fcmp oeq double %.98.i, 0.000000e+00
  br i1 %.99.i, label %B972.endif, label %B48.i

B48.i:
  %.185.i = fdiv double %"$phi972.0.2.0", %.844
  %.49.i.i = getelementptr i8, ptr %arg.ground.4, i64 48
  %.50.i.i = load double, ptr %.49.i.i, align 8
  %.51.i.i = fcmp oeq double %.50.i.i, 0.000000e+00
  %.54.i.i = fcmp ole double %.185.i, 0.000000e+00
  %or.cond.i.i = select i1 %.51.i.i, i1 true, i1 %.54.i.i
  br i1 %or.cond.i.i, label %B48.endif.endif.i, label %B54.i.i

B54.i.i:
  %.100.i.i = fneg double %.50.i.i
  %.102.i.i = tail call double @llvm.log.f64(double %.185.i)
  %.105.i.i = fmul double %.102.i.i, %.100.i.i
  %.106.i.i = tail call double @llvm.exp.f64(double %.105.i.i)
  br label %B48.endif.endif.i

B48.endif.endif.i:
  %storemerge.i.i = phi double [ %.106.i.i, %B54.i.i ], [ 1.000000e+00, %B48.i ]
  %.246.i = getelementptr i8, ptr %arg.p.4, i64 64
  %.247.i = load double, ptr %.246.i, align 8
  %.248.i = fcmp oeq double %.247.i, 0.000000e+00
  br i1 %.248.i, label %B148.endif.endif.i, label %B300.endif.endif.i

B148.endif.endif.i:
  %.290.i9 = load double, ptr %arg.ground.4, align 8
  %.297.i = fmul double %storemerge.i.i, %.290.i9
  %.301.i = fmul double %"$phi972.0.2.0", %.297.i
  %sunkaddr.i = shl i64 %.83.i, 3
  %sunkaddr5.i = getelementptr i8, ptr %10, i64 %sunkaddr.i
  %sunkaddr6.i = getelementptr i8, ptr %sunkaddr5.i, i64 88
  %.337.i = load double, ptr %sunkaddr6.i, align 8
  %.344.i = fmul double %arg.force, %.337.i
  %.347.i = fneg double %.301.i
  %.12.i.i10 = fcmp olt double %.344.i, %.347.i
  %.13.i.i11 = select i1 %.12.i.i10, double %.347.i, double %.344.i
  %.12.i3.i = fcmp olt double %.301.i, %.13.i.i11
  %.13.i4.i = select i1 %.12.i3.i, double %.301.i, double %.13.i.i11
  %.405.i = fmul double %.1027, %.13.i4.i
  br label %B972.endif

B300.endif.endif.i:
  %.445.i = icmp slt i64 %arg.i, -10
  %.446.i = select i1 %.445.i, i64 %arg.y.5.0, i64 0
  %13 = getelementptr i8, ptr %0, i64 80
  %.460.i = getelementptr double, ptr %13, i64 %.446.i
  %.461.i = load double, ptr %.460.i, align 8
  %.501.i = tail call double @llvm.fabs.f64(double %.499)
  %.12.i1.i7 = fcmp olt double %.501.i, 3.000000e+00
  %.13.i2.i8 = select i1 %.12.i1.i7, double 3.000000e+00, double %.501.i
  %.497.i = fmul double %.909, %.461.i
  %.499.i = fsub double %.497.i, %.499
  %.535.i = fdiv double %.499.i, %.13.i2.i8
  %.564.i = getelementptr i8, ptr %arg.ground.4, i64 24
  %.565.i = load double, ptr %.564.i, align 8
  %.567.i = fmul double %"$phi972.0.2.0", %.565.i
  %.571.i = fmul double %storemerge.i.i, %.567.i
  %.600.i = getelementptr i8, ptr %arg.ground.4, i64 8
  %.601.i = load double, ptr %.600.i, align 8
  %.630.i = getelementptr i8, ptr %arg.ground.4, i64 16
  %.631.i = load double, ptr %.630.i, align 8
  %.641.i = fdiv double %.631.i, %storemerge.i.i
  %.644.i = fmul double %.535.i, %.641.i
  %.645.i = tail call double @atan(double %.644.i)
  %.646.i = fmul double %.601.i, %.645.i
  %.647.i = tail call double @llvm.sin.f64(double %.646.i)
  %.648.i = fmul double %.571.i, %.647.i
  %sunkaddr = shl i64 %.83.i, 3
  %sunkaddr41 = getelementptr i8, ptr %10, i64 %sunkaddr
  %sunkaddr42 = getelementptr i8, ptr %sunkaddr41, i64 88
  %.680.i = load double, ptr %sunkaddr42, align 8
  %.682.i = fmul double %arg.torque, %.680.i
  %.686.i = fmul double %.1027, %.648.i
  %.687.i = fsub double %.682.i, %.686.i
  %.707.i = icmp slt i64 %arg.at, -13
  %.708.i = select i1 %.707.i, i64 %arg.p.5.0, i64 0
  %14 = getelementptr i8, ptr %10, i64 104
  %.722.i = getelementptr double, ptr %14, i64 %.708.i
  %.723.i = load double, ptr %.722.i, align 8
  %.724.i = fmul double %.723.i, %.687.i
  %.725.i = fadd double %.686.i, %.724.i
  %.743.i = icmp slt i64 %arg.at, -10
  %.744.i = select i1 %.743.i, i64 %arg.p.5.0, i64 0
  %15 = getelementptr i8, ptr %10, i64 80
  %.758.i = getelementptr double, ptr %15, i64 %.744.i
  %.759.i = load double, ptr %.758.i, align 8
  %.768.i = fdiv double %.687.i, %.759.i
  br label %B972.endif

common.ret:
  %retptr.sink = phi ptr [ %retptr, %B972.endif.endif.endif.en...endif.endif.endif ], [ %excinfo, %B972.endif.endif.endif.endif ]
  %common.ret.op = phi i32 [ 0, %B972.endif.endif.endif.en...endif.endif.endif ], [ %.1388, %B972.endif.endif.endif.endif ]
  store ptr null, ptr %retptr.sink, align 8
  ret i32 %common.ret.op

B672.endif:
  %"$phi672.3.2.0" = phi double [ %.706, %B644 ], [ 0.000000e+00, %B556 ]
  %.716 = fadd double %.667, %"$phi672.3.2.0"
  %.21.i = fdiv double %.716, %arg.spacing
  %.23.i = fadd double %.21.i, 4.000000e+00
  %.12.i.i = fcmp olt double %.23.i, 1.000000e+00
  %.13.i.i = select i1 %.12.i.i, double 1.000000e+00, double %.23.i
  %.64.i = uitofp i64 %arg.heights.5.0 to double
  %.65.i = fadd double %.64.i, -2.001000e+00
  %.12.i1.i = fcmp olt double %.65.i, %.13.i.i
  %.13.i2.i = select i1 %.12.i1.i, double %.65.i, double %.13.i.i
  %.5.i.i = fptosi double %.13.i2.i to i64
  %.118.i = sitofp i64 %.5.i.i to double
  %.119.i = fsub double %.13.i2.i, %.118.i
  %.133.inv.i = icmp sgt i64 %.5.i.i, 0
  %.134.i = select i1 %.133.inv.i, i64 0, i64 %arg.heights.5.0
  %16 = getelementptr double, ptr %arg.heights.4, i64 %.5.i.i
  %17 = getelementptr i8, ptr %16, i64 -8
  %.148.i = getelementptr double, ptr %17, i64 %.134.i
  %.149.i = load double, ptr %.148.i, align 8
  %.162.i = icmp slt i64 %.5.i.i, 0
  %.163.i = select i1 %.162.i, i64 %arg.heights.5.0, i64 0
  %.177.i1 = getelementptr double, ptr %16, i64 %.163.i
  %.178.i = load double, ptr %.177.i1, align 8
  %.192.i = icmp slt i64 %.5.i.i, -1
  %.193.i = select i1 %.192.i, i64 %arg.heights.5.0, i64 0
  %18 = getelementptr i8, ptr %16, i64 8
  %.207.i = getelementptr double, ptr %18, i64 %.193.i
  %.208.i = load double, ptr %.207.i, align 8
  %.222.i = icmp slt i64 %.5.i.i, -2
  %.223.i = select i1 %.222.i, i64 %arg.heights.5.0, i64 0
  %19 = getelementptr i8, ptr %16, i64 16
  %.237.i = getelementptr double, ptr %19, i64 %.223.i
  %.238.i2 = load double, ptr %.237.i, align 8
  %.266.i = fsub double %.208.i, %.149.i
  %.270.i3 = fmul double %.266.i, 5.000000e-01
  %.271.i = fmul double %.178.i, 2.500000e+00
  %.272.i = fsub double %.149.i, %.271.i
  %.273.i = fmul double %.208.i, 2.000000e+00
  %.274.i = fadd double %.272.i, %.273.i
  %.275.i = fmul double %.238.i2, 5.000000e-01
  %.276.i = fsub double %.274.i, %.275.i
  %.277.i4 = fsub double %.238.i2, %.149.i
  %.281.i = fmul double %.277.i4, 5.000000e-01
  %.282.i = fsub double %.178.i, %.208.i
  %.283.i = fmul double %.282.i, 1.500000e+00
  %.284.i = fadd double %.283.i, %.281.i
  %.285.i = fmul double %.284.i, %.119.i
  %.286.i = fadd double %.276.i, %.285.i
  %.287.i = fmul double %.119.i, %.286.i
  %.288.i = fadd double %.270.i3, %.287.i
  %.289.i = fmul double %.119.i, %.288.i
  %.290.i = fadd double %.178.i, %.289.i
  %.291.i = fmul double %.276.i, 2.000000e+00
  %.292.i = fmul double %.119.i, 3.000000e+00
  %.293.i = fmul double %.284.i, %.292.i
  %.294.i = fadd double %.291.i, %.293.i
  %.295.i = fmul double %.119.i, %.294.i
  %.296.i = fadd double %.270.i3, %.295.i
  %.300.i = fdiv double %.296.i, %arg.spacing
  %.783 = icmp slt i64 %arg.i, -7
  %.784 = select i1 %.783, i64 %arg.ground.5.0, i64 0
  %20 = getelementptr double, ptr %arg.ground.4, i64 %arg.i
  %21 = getelementptr i8, ptr %20, i64 56
  %.798 = getelementptr double, ptr %21, i64 %.784
  %.799 = load double, ptr %.798, align 8
  %.800 = fsub double %.290.i, %.799
  br label %B740.endif

B740.endif:
  %heights.sroa.0.0 = phi ptr [ null, %B672.endif ], [ %arg.heights.0, %B0.endif ]
  %road.3.0 = phi double [ %.800, %B672.endif ], [ 0.000000e+00, %B0.endif ]
  %rise.2.0 = phi double [ %.300.i, %B672.endif ], [ 0.000000e+00, %B0.endif ]
  %.828 = icmp slt i64 %arg.at, -2
  %.829 = select i1 %.828, i64 %arg.p.5.0, i64 0
  %22 = getelementptr i8, ptr %10, i64 16
  %.843 = getelementptr double, ptr %22, i64 %.829
  %.844 = load double, ptr %.843, align 8
  %.860 = icmp slt i64 %arg.at, -3
  %.861 = select i1 %.860, i64 %arg.p.5.0, i64 0
  %23 = getelementptr i8, ptr %10, i64 24
  %.875 = getelementptr double, ptr %23, i64 %.861
  %.876 = load double, ptr %.875, align 8
  %.879 = fsub double %road.3.0, %.573
  %sunkaddr8 = getelementptr i8, ptr %arg.p.4, i64 16
  %.909 = load double, ptr %sunkaddr8, align 8
  %.910 = fadd double %.879, %.909
  %.911 = fmul double %.876, %.910
  %.912 = fadd double %.844, %.911
  %.12.i = fcmp olt double %.912, 0.000000e+00
  %.13.i = select i1 %.12.i, double 0.000000e+00, double %.912
  %.945 = fcmp ogt double %.13.i, 0.000000e+00
  br i1 %.945, label %B886, label %B972

B972.endif:
  %.1037.sroa.0.0 = phi double [ %.648.i, %B300.endif.endif.i ], [ %.13.i4.i, %B148.endif.endif.i ], [ 0.000000e+00, %B972 ]
  %.1037.sroa.6.0 = phi double [ %.725.i, %B300.endif.endif.i ], [ %.405.i, %B148.endif.endif.i ], [ 0.000000e+00, %B972 ]
  %.1037.sroa.9.0 = phi double [ %.768.i, %B300.endif.endif.i ], [ 0.000000e+00, %B148.endif.endif.i ], [ 0.000000e+00, %B972 ]
  %.1037.sroa.12.0 = phi double [ %.535.i, %B300.endif.endif.i ], [ 0.000000e+00, %B148.endif.endif.i ], [ 0.000000e+00, %B972 ]
  %.43.i = fcmp ule double %.224, 0.000000e+00
  %.67.i = fneg double %.224
  %"$phi44.0.2.0.i" = select i1 %.43.i, double %.67.i, double %.224
  %.184186.not.i = icmp slt i64 %arg.hinges.5.3, 1
  br i1 %.184186.not.i, label %B972.endif.endif.endif, label %B104.lr.ph.i

B104.lr.ph.i:
  %24 = fcmp ule double %.224, 0.000000e+00
  %25 = icmp slt i64 %arg.i, 0
  %.1128 = select i1 %25, i64 %arg.hinges.5.0, i64 0
  %.1129 = add i64 %.1128, %arg.i
  %.281.i12 = icmp slt i64 %arg.row, 0
  %factor.op.mul.i = mul i64 %arg.hinges.5.4, %arg.hinges.5.3
  %.310.reass.i = mul i64 %factor.op.mul.i, %arg.hinges.5.2
  %26 = shl i64 %arg.hinges.5.4, 3
  %27 = shl i64 %arg.hinges.5.1, 3
  %28 = mul i64 %.1129, %27
  %29 = mul i64 %28, %arg.hinges.5.2
  %30 = add i64 %29, 8
  %31 = mul i64 %30, %factor.op.mul.i
  %32 = select i1 %.281.i12, i64 %26, i64 0
  %33 = shl i64 %.310.reass.i, 3
  %34 = select i1 %24, i64 %33, i64 0
  %35 = shl i64 %arg.row, 3
  %36 = getelementptr i8, ptr %arg.hinges.4, i64 %32
  %37 = getelementptr i8, ptr %36, i64 %34
  %scevgep = getelementptr i8, ptr %37, i64 %35
  %sunkaddr44 = mul i64 %.310.reass.i, %28
  br label %B104.i

B104.i:
  %lsr.iv = phi ptr [ %scevgep38, %B152.i ], [ %scevgep, %B104.lr.ph.i ]
  %lsr.iv9.i = phi i64 [ %lsr.iv.next.i, %B152.i ], [ %arg.hinges.5.3, %B104.lr.ph.i ]
  %force.2.0189.i = phi double [ %.464.i, %B152.i ], [ 0.000000e+00, %B104.lr.ph.i ]
  %sunkaddr45 = getelementptr i8, ptr %lsr.iv, i64 %sunkaddr44
  %.324.i = load double, ptr %sunkaddr45, align 8
  %.326.i = fsub double %"$phi44.0.2.0.i", %.324.i
  %.331.i = fcmp ugt double %.326.i, 0.000000e+00
  br i1 %.331.i, label %B152.i, label %B148.i

B148.i:
  br label %B972.endif.endif.endif

B152.i:
  %scevgep39 = getelementptr i8, ptr %lsr.iv, i64 %31
  %.458.i = load double, ptr %scevgep39, align 8
  %.460.i15 = fmul double %.326.i, %.458.i
  %.464.i = fadd double %force.2.0189.i, %.460.i15
  %lsr.iv.next.i = add i64 %lsr.iv9.i, -1
  %scevgep38 = getelementptr i8, ptr %lsr.iv, i64 %26
  %exitcond.not.i = icmp eq i64 %lsr.iv.next.i, 0
  br i1 %exitcond.not.i, label %B972.endif.endif.endif, label %B104.i

B972.endif.endif.endif:
  %force.2.0183.i = phi double [ %force.2.0189.i, %B148.i ], [ 0.000000e+00, %B972.endif ], [ %.464.i, %B152.i ]
  %hinges.sroa.0.0.i = phi ptr [ null, %B148.i ], [ %arg.hinges.0, %B972.endif ], [ %arg.hinges.0, %B152.i ]
  %38 = fcmp ule double %.224, 0.000000e+00
  %.502.i = fneg double %force.2.0183.i
  %"$phi210.0.2.0.i" = select i1 %38, double %.502.i, double %force.2.0183.i
  %.1295 = icmp slt i64 %arg.at, -8
  %.1296 = select i1 %.1295, i64 %arg.p.5.0, i64 0
  %39 = getelementptr i8, ptr %10, i64 64
  %.1310 = getelementptr double, ptr %39, i64 %.1296
  %.1311 = load double, ptr %.1310, align 8
  %.1333 = icmp slt i64 %arg.at, -15
  %.1334 = select i1 %.1333, i64 %arg.p.5.0, i64 0
  %40 = getelementptr i8, ptr %10, i64 120
  %.1348 = getelementptr double, ptr %40, i64 %.1334
  %.1349 = load double, ptr %.1348, align 8
  %.11.i = fcmp oeq double %.1349, 0.000000e+00
  br i1 %.11.i, label %B972.endif.endif.endif.endif, label %B20.endif.i

B20.endif.i:
  %.21.i16 = fmul double %.191, %.191
  %.28.i = fdiv double %.21.i16, 4.000000e-08
  %.29.i = fmul double %.28.i, %.28.i
  %.30.i = fadd double %.29.i, 1.000000e+00
  %.35.i = fdiv double %.1349, %.30.i
  br label %B972.endif.endif.endif.endif

B972.endif.endif.endif.endif:
  %storemerge.i = phi double [ %.35.i, %B20.endif.i ], [ 0.000000e+00, %B972.endif.endif.endif ]
  call void @llvm.memset.p0.i64(ptr nonnull align 8 dereferenceable(16) %.1382, i8 0, i64 16, i1 false)
  %.1388 = call i32 @_stopped(ptr nonnull %.1382, ptr nonnull %excinfo.8, double %.191, i64 %arg.at, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr nonnull %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0)
  switch i32 %.1388, label %common.ret [
    i32 -2, label %B972.endif.endif.endif.en...endif.endif.endif
    i32 0, label %B972.endif.endif.endif.en...endif.endif.endif
  ]

B972.endif.endif.endif.en...endif.endif.endif:
  %sunkaddr46 = getelementptr i8, ptr %.1382, i64 8
  %.1398.fca.1.load = load double, ptr %sunkaddr46, align 8
  %.1398.fca.0.load = load double, ptr %.1382, align 8
  %.1316 = fdiv double %.224, 4.000000e-03
  %.1375 = fadd double %.1316, %storemerge.i
  %.1376 = tail call double @tanh(double %.1375)
  %.1377 = fmul double %.1311, %.1376
  %.1431 = icmp slt i64 %arg.at, -5
  %.1432 = select i1 %.1431, i64 %arg.p.5.0, i64 0
  %41 = getelementptr i8, ptr %10, i64 40
  %.1446 = getelementptr double, ptr %41, i64 %.1432
  %.1447 = load double, ptr %.1446, align 8
  %.1449 = fmul double %.191, %.1447
  %.1465 = icmp slt i64 %arg.at, -7
  %.1466 = select i1 %.1465, i64 %arg.p.5.0, i64 0
  %42 = getelementptr i8, ptr %10, i64 56
  %.1480 = getelementptr double, ptr %42, i64 %.1466
  %.1481 = load double, ptr %.1480, align 8
  %.1482 = fadd double %.1449, %.1481
  %.12.i17 = fcmp olt double %.1482, 0.000000e+00
  %.13.i18 = select i1 %.12.i17, double 0.000000e+00, double %.1482
  %.1543 = fsub double %.13.i18, %.1481
  %.1559 = icmp slt i64 %arg.at, -6
  %.1560 = select i1 %.1559, i64 %arg.p.5.0, i64 0
  %43 = getelementptr i8, ptr %10, i64 48
  %.1574 = getelementptr double, ptr %43, i64 %.1560
  %.1575 = load double, ptr %.1574, align 8
  %.1577 = fmul double %.191, %.1575
  %.1578 = fadd double %.1577, %.1543
  %.1594 = icmp slt i64 %arg.at, -14
  %.1595 = select i1 %.1594, i64 %arg.p.5.0, i64 0
  %44 = getelementptr i8, ptr %10, i64 112
  %.1609 = getelementptr double, ptr %44, i64 %.1595
  %.1610 = load double, ptr %.1609, align 8
  %.1611 = fsub double %.1578, %.1610
  %.1627 = icmp slt i64 %arg.at, -9
  %.1628 = select i1 %.1627, i64 %arg.p.5.0, i64 0
  %45 = getelementptr i8, ptr %10, i64 72
  %.1642 = getelementptr double, ptr %45, i64 %.1628
  %.1643 = load double, ptr %.1642, align 8
  %.1644 = fadd double %.1643, %.1611
  %.1645 = fadd double %.1398.fca.0.load, %.1644
  %.1646 = fadd double %"$phi210.0.2.0.i", %.1645
  %.1647 = fadd double %.1377, %.1646
  %.1663 = icmp slt i64 %arg.at, -1
  %.1664 = select i1 %.1663, i64 %arg.p.5.0, i64 0
  %46 = getelementptr i8, ptr %10, i64 8
  %.1678 = getelementptr double, ptr %46, i64 %.1664
  %.1679 = load double, ptr %.1678, align 8
  %.1682 = fmul double %.192.5.i, %.192.5.i
  %.1683 = fadd double %.1682, 1.000000e+00
  %sqrt = tail call double @llvm.sqrt.f64(double %.1683)
  %.1688 = fdiv double 1.000000e+00, %sqrt
  %.1690 = fneg double %.192.5.i
  %.1694 = fdiv double %.1690, %sqrt
  %.1696 = fneg double %.427
  %.1723 = fmul double %.364, %.1694
  %47 = fmul double %.1688, %.427
  %.1724 = fsub double %.1723, %47
  %.1726 = fneg double %.255
  %.1728 = fmul double %.255, %.1726
  %.1730 = fmul double %.1728, %.364
  %.1734 = fmul double %.255, 2.000000e+00
  %.1736 = fmul double %.224, %.1734
  %.1737 = fsub double %.1730, %.1736
  %.1740 = fmul double %.224, %.224
  %.1742 = fmul double %.1740, %.182.5.i
  %.1745 = fadd double %.1742, %.1737
  %.1751 = fmul double %.1728, %.427
  %.1759 = fmul double %.1736, %.192.5.i
  %.1760 = fadd double %.1759, %.1751
  %.1761 = fmul double %.1688, %.1745
  %.1762 = fmul double %.1694, %.1760
  %.1763 = fadd double %.1761, %.1762
  %.1764 = fmul double %.1763, %.1679
  %.1765 = fmul double %.1679, 0x40239D013A92A305
  %.1766 = fsub double %"$phi972.0.2.0", %.1765
  %.1768 = fmul double %arg.cosine, %.1037.sroa.0.0
  %.1770 = fmul double %arg.sine, %.1766
  %.1771 = fadd double %.1768, %.1770
  %.1773 = fmul double %arg.cosine, %.1766
  %.1777 = fmul double %arg.sine, %.1037.sroa.0.0
  %.1780 = fsub double %.1773, %.1777
  %.1782 = fmul double %.192.5.i, %.1771
  %.1783 = fadd double %.1780, %.1782
  %.1784 = fsub double %.1783, %.1647
  %.1786 = fmul double %.372.4.i, %.1037.sroa.6.0
  %.1787 = fadd double %.1786, %.1784
  %.1791 = fdiv double %.1787, %.1683
  store double %.1688, ptr %arg.out.4, align 8
  %.1850 = getelementptr i8, ptr %arg.out.4, i64 8
  store double %.1694, ptr %.1850, align 8
  %.1880 = getelementptr i8, ptr %arg.out.4, i64 16
  store double %.1724, ptr %.1880, align 8
  %.1882 = fmul double %.1688, %.1764
  %.1883 = fsub double %.1771, %.1882
  %.1885 = fmul double %.192.5.i, %.1791
  %.1886 = fsub double %.1883, %.1885
  %.1887 = fmul double %.1694, %.1764
  %.1888 = fsub double %.1780, %.1887
  %.1889 = fsub double %.1888, %.1791
  %.1918 = getelementptr i8, ptr %arg.out.4, i64 24
  store double %.1886, ptr %.1918, align 8
  %.1948 = getelementptr i8, ptr %arg.out.4, i64 32
  store double %.1889, ptr %.1948, align 8
  %.1951 = fmul double %.364, %.1780
  %48 = fmul double %.427, %.1771
  %.1952 = fsub double %.1951, %48
  %.1953 = fadd double %.1037.sroa.6.0, %.1952
  %.1954 = fmul double %.1724, %.1764
  %.1955 = fsub double %.1953, %.1954
  %49 = fmul double %.192.5.i, %.427
  %.1958 = fsub double %.364, %49
  %.1959 = fmul double %.1958, %.1791
  %.1960 = fsub double %.1955, %.1959
  %.1989 = getelementptr i8, ptr %arg.out.4, i64 40
  store double %.1960, ptr %.1989, align 8
  %.2064 = getelementptr i8, ptr %arg.out.4, i64 48
  store double %.1787, ptr %.2064, align 8
  %.2094 = getelementptr i8, ptr %arg.out.4, i64 56
  store double %.1696, ptr %.2094, align 8
  %.2124 = getelementptr i8, ptr %arg.out.4, i64 64
  store double %.364, ptr %.2124, align 8
  %.2154 = getelementptr i8, ptr %arg.out.4, i64 72
  store double %.1745, ptr %.2154, align 8
  %.2184 = getelementptr i8, ptr %arg.out.4, i64 80
  store double %.1760, ptr %.2184, align 8
  %.2214 = getelementptr i8, ptr %arg.out.4, i64 88
  store double %.1683, ptr %.2214, align 8
  %.2244 = getelementptr i8, ptr %arg.out.4, i64 96
  store double %.192.5.i, ptr %.2244, align 8
  %.2247 = fmul double %.499, %.1037.sroa.0.0
  %.2250 = fmul double %.224, %.372.4.i
  %.2254 = fadd double %.255, %.2250
  %.2257 = fmul double %.2254, %.1037.sroa.6.0
  %.2258 = fadd double %.2247, %.2257
  %.2261 = fmul double %rise.2.0, %.13.i
  %.2265 = fmul double %.499, %.2261
  %.2266 = fadd double %.2265, %.2258
  %.2268 = fsub double %"$phi972.0.2.0", %.13.i
  %.2270 = fmul double %.536, %.2268
  %.2271 = fadd double %.2270, %.2266
  %.2300 = getelementptr i8, ptr %arg.out.4, i64 104
  store double %.2271, ptr %.2300, align 8
  %.2347 = icmp slt i64 %arg.at, -10
  %.2348 = select i1 %.2347, i64 %arg.p.5.0, i64 0
  %50 = getelementptr i8, ptr %10, i64 80
  %.2362 = getelementptr double, ptr %50, i64 %.2348
  %.2363 = load double, ptr %.2362, align 8
  %.2364 = fmul double %.1037.sroa.9.0, %.2363
  %.2380 = icmp slt i64 %arg.i, -10
  %.2381 = select i1 %.2380, i64 %arg.y.5.0, i64 0
  %51 = getelementptr i8, ptr %0, i64 80
  %.2395 = getelementptr double, ptr %51, i64 %.2381
  %.2396 = load double, ptr %.2395, align 8
  %.2397 = fmul double %.2364, %.2396
  %.2398 = fadd double %"$phi210.0.2.0.i", %.1377
  %.2400 = fmul double %.224, %.2398
  %.2403 = fsub double %.2397, %.2400
  %.2404 = fadd double %.2271, %.2403
  store double %.2404, ptr %.2300, align 8
  %sunkaddr9 = getelementptr i8, ptr %arg.p.4, i64 16
  %.2464 = load double, ptr %sunkaddr9, align 8
  %.2466 = fsub double %.573, %.2464
  %.2521 = getelementptr i8, ptr %arg.out.4, i64 112
  store double %"$phi972.0.2.0", ptr %.2521, align 8
  %.2551 = getelementptr i8, ptr %arg.out.4, i64 120
  store double %.1037.sroa.0.0, ptr %.2551, align 8
  %.2581 = getelementptr i8, ptr %arg.out.4, i64 128
  store double %"$phi210.0.2.0.i", ptr %.2581, align 8
  %.2611 = getelementptr i8, ptr %arg.out.4, i64 136
  store double %.2466, ptr %.2611, align 8
  %.2676 = getelementptr i8, ptr %arg.out.4, i64 144
  store double %.536, ptr %.2676, align 8
  %.2706 = getelementptr i8, ptr %arg.out.4, i64 152
  store double %road.3.0, ptr %.2706, align 8
  %.2736 = getelementptr i8, ptr %arg.out.4, i64 160
  store double %.1037.sroa.12.0, ptr %.2736, align 8
  %.2766 = getelementptr i8, ptr %arg.out.4, i64 168
  store double %.1037.sroa.9.0, ptr %.2766, align 8
  %.2796 = getelementptr i8, ptr %arg.out.4, i64 176
  store double %.499, ptr %.2796, align 8
  %.2798 = fmul double %.1679, 5.000000e-01
  %.2801 = fmul double %.499, %.499
  %.2806 = fmul double %.536, %.536
  %.2809 = fadd double %.2801, %.2806
  %.2810 = fmul double %.2809, %.2798
  %.2842 = fmul double %.1765, %.2466
  %.2843 = fadd double %.2810, %.2842
  %.2846 = fmul double %.13.i, %.13.i
  %sunkaddr48 = shl i64 %.861, 3
  %sunkaddr49 = getelementptr i8, ptr %23, i64 %sunkaddr48
  %.2880 = load double, ptr %sunkaddr49, align 8
  %.2881 = fmul double %.2880, 2.000000e+00
  %.2885 = fdiv double %.2846, %.2881
  %.2886 = fadd double %.2843, %.2885
  %.2915 = getelementptr i8, ptr %arg.out.4, i64 184
  store double %.2886, ptr %.2915, align 8
  %.2948 = load double, ptr %.1446, align 8
  %.2950 = fmul double %.191, %.2948
  %.2982 = load double, ptr %.1480, align 8
  %.2983 = fadd double %.2950, %.2982
  %.12.i19 = fcmp olt double %.2983, 0.000000e+00
  %.13.i20 = select i1 %.12.i19, double 0.000000e+00, double %.2983
  %.3042 = fmul double %.13.i20, %.13.i20
  %.3075 = fmul double %.2948, 2.000000e+00
  %.3079 = fdiv double %.3042, %.3075
  %.3113 = fmul double %.191, %.2982
  %.3114 = fsub double %.3079, %.3113
  %.3146 = load double, ptr %.1574, align 8
  %.3148 = fmul double %.191, %.3146
  %.3150 = fmul double %.191, %.3148
  %.3154 = fmul double %.3150, 5.000000e-01
  %.3155 = fadd double %.3154, %.3114
  %.3156 = fadd double %.2886, %.3155
  store double %.3156, ptr %.2915, align 8
  %.3248 = load double, ptr %.1642, align 8
  %.3280 = load double, ptr %.1609, align 8
  %.3281 = fsub double %.3248, %.3280
  %.3283 = fmul double %.191, %.3281
  %.3286 = fadd double %.1398.fca.1.load, %.3283
  %.3287 = fadd double %.3286, %.3156
  store double %.3287, ptr %.2915, align 8
  %.3381 = load double, ptr %.2362, align 8
  %.3387 = fmul double %.3381, 5.000000e-01
  %.3419 = load double, ptr %.2395, align 8
  %.3420 = fmul double %.3387, %.3419
  %.3460 = fmul double %.3419, %.3420
  %.3461 = fadd double %.3287, %.3460
  store double %.3461, ptr %.2915, align 8
  br label %common.ret
}

declare double @llvm.log.f64(double)

declare double @llvm.exp.f64(double)

declare double @llvm.fabs.f64(double)

declare double @atan(double)

define internal i32 @_stopped(ptr noalias %retptr, ptr noalias %excinfo, double %arg.u, i64 %arg.at, ptr %arg.p.0, ptr %arg.p.1, i64 %arg.p.2, i64 %arg.p.3, ptr %arg.p.4, i64 %arg.p.5.0, i64 %arg.p.6.0) {
B0.endif.endif:
  %.165 = add nsw i64 %arg.at, 16
  br label %B44.endif.endif

B324:
  %stops.2.1.lcssa = phi double [ %.388.11, %B204.endif.11 ], [ %stops.3.0156, %B44.endif.endif ], [ %.388, %B204.endif ], [ %.388.10, %B204.endif.10 ], [ %.388.1, %B204.endif.1 ], [ %.388.7, %B204.endif.7 ], [ %.388.2, %B204.endif.2 ], [ %.388.9, %B204.endif.9 ], [ %.388.3, %B204.endif.3 ], [ %.388.6, %B204.endif.6 ], [ %.388.4, %B204.endif.4 ], [ %.388.8, %B204.endif.8 ], [ %.388.5, %B204.endif.5 ]
  %squeezed.2.1.lcssa = phi double [ %.438.11, %B204.endif.11 ], [ %squeezed.3.0157, %B44.endif.endif ], [ %.438, %B204.endif ], [ %.438.10, %B204.endif.10 ], [ %.438.1, %B204.endif.1 ], [ %.438.7, %B204.endif.7 ], [ %.438.2, %B204.endif.2 ], [ %.438.9, %B204.endif.9 ], [ %.438.3, %B204.endif.3 ], [ %.438.6, %B204.endif.6 ], [ %.438.4, %B204.endif.4 ], [ %.438.8, %B204.endif.8 ], [ %.438.5, %B204.endif.5 ]
  br i1 %exitcond.not, label %B326, label %B44.endif.endif

B326:
  store double %stops.2.1.lcssa, ptr %retptr, align 8
  %retptr.repack139 = getelementptr i8, ptr %retptr, i64 8
  store double %squeezed.2.1.lcssa, ptr %retptr.repack139, align 8
  ret i32 0

B44.endif.endif:
  %squeezed.3.0157 = phi double [ 0.000000e+00, %B0.endif.endif ], [ %squeezed.2.1.lcssa, %B324 ]
  %stops.3.0156 = phi double [ 0.000000e+00, %B0.endif.endif ], [ %stops.2.1.lcssa, %B324 ]
  %exitcond.not = phi i1 [ false, %B0.endif.endif ], [ true, %B324 ]
  %.117149154 = phi i64 [ 0, %B0.endif.endif ], [ 1, %B324 ]
  %0 = shl nuw nsw i64 %.117149154, 1
  %.162 = uitofp i64 %0 to double
  %.163 = fsub double 1.000000e+00, %.162
  %.167 = mul nuw nsw i64 %.117149154, 24
  %.168 = add nsw i64 %.165, %.167
  %.297 = fmul double %arg.u, %.163
  %.314 = icmp slt i64 %.168, 0
  %.315 = select i1 %.314, i64 %arg.p.5.0, i64 0
  %1 = getelementptr double, ptr %arg.p.4, i64 %.168
  %.329 = getelementptr double, ptr %1, i64 %.315
  %.330 = load double, ptr %.329, align 8
  %.331 = fsub double %.297, %.330
  %.336 = fcmp ugt double %.331, 0.000000e+00
  br i1 %.336, label %B204.endif, label %B324

B204.endif:
  %.366 = icmp slt i64 %.168, -12
  %.367 = select i1 %.366, i64 %arg.p.5.0, i64 0
  %2 = getelementptr i8, ptr %1, i64 96
  %.381 = getelementptr double, ptr %2, i64 %.367
  %.382 = load double, ptr %.381, align 8
  %.384 = fmul double %.163, %.382
  %.386 = fmul double %.331, %.384
  %.388 = fadd double %stops.3.0156, %.386
  %.428 = fmul double %.331, %.382
  %.430 = fmul double %.331, %.428
  %.436 = fmul double %.430, 5.000000e-01
  %.438 = fadd double %squeezed.3.0157, %.436
  %.314.1 = icmp slt i64 %.168, -1
  %.315.1 = select i1 %.314.1, i64 %arg.p.5.0, i64 0
  %3 = getelementptr i8, ptr %1, i64 8
  %.329.1 = getelementptr double, ptr %3, i64 %.315.1
  %.330.1 = load double, ptr %.329.1, align 8
  %.331.1 = fsub double %.297, %.330.1
  %.336.1 = fcmp ugt double %.331.1, 0.000000e+00
  br i1 %.336.1, label %B204.endif.1, label %B324

B204.endif.1:
  %.366.1 = icmp slt i64 %.168, -13
  %.367.1 = select i1 %.366.1, i64 %arg.p.5.0, i64 0
  %4 = getelementptr i8, ptr %1, i64 104
  %.381.1 = getelementptr double, ptr %4, i64 %.367.1
  %.382.1 = load double, ptr %.381.1, align 8
  %.384.1 = fmul double %.163, %.382.1
  %.386.1 = fmul double %.331.1, %.384.1
  %.388.1 = fadd double %.388, %.386.1
  %.428.1 = fmul double %.331.1, %.382.1
  %.430.1 = fmul double %.331.1, %.428.1
  %.436.1 = fmul double %.430.1, 5.000000e-01
  %.438.1 = fadd double %.438, %.436.1
  %.314.2 = icmp slt i64 %.168, -2
  %.315.2 = select i1 %.314.2, i64 %arg.p.5.0, i64 0
  %5 = getelementptr i8, ptr %1, i64 16
  %.329.2 = getelementptr double, ptr %5, i64 %.315.2
  %.330.2 = load double, ptr %.329.2, align 8
  %.331.2 = fsub double %.297, %.330.2
  %.336.2 = fcmp ugt double %.331.2, 0.000000e+00
  br i1 %.336.2, label %B204.endif.2, label %B324

B204.endif.2:
  %.366.2 = icmp slt i64 %.168, -14
  %.367.2 = select i1 %.366.2, i64 %arg.p.5.0, i64 0
  %6 = getelementptr i8, ptr %1, i64 112
  %.381.2 = getelementptr double, ptr %6, i64 %.367.2
  %.382.2 = load double, ptr %.381.2, align 8
  %.384.2 = fmul double %.163, %.382.2
  %.386.2 = fmul double %.331.2, %.384.2
  %.388.2 = fadd double %.388.1, %.386.2
  %.428.2 = fmul double %.331.2, %.382.2
  %.430.2 = fmul double %.331.2, %.428.2
  %.436.2 = fmul double %.430.2, 5.000000e-01
  %.438.2 = fadd double %.438.1, %.436.2
  %.314.3 = icmp slt i64 %.168, -3
  %.315.3 = select i1 %.314.3, i64 %arg.p.5.0, i64 0
  %7 = getelementptr i8, ptr %1, i64 24
  %.329.3 = getelementptr double, ptr %7, i64 %.315.3
  %.330.3 = load double, ptr %.329.3, align 8
  %.331.3 = fsub double %.297, %.330.3
  %.336.3 = fcmp ugt double %.331.3, 0.000000e+00
  br i1 %.336.3, label %B204.endif.3, label %B324

B204.endif.3:
  %.366.3 = icmp slt i64 %.168, -15
  %.367.3 = select i1 %.366.3, i64 %arg.p.5.0, i64 0
  %8 = getelementptr i8, ptr %1, i64 120
  %.381.3 = getelementptr double, ptr %8, i64 %.367.3
  %.382.3 = load double, ptr %.381.3, align 8
  %.384.3 = fmul double %.163, %.382.3
  %.386.3 = fmul double %.331.3, %.384.3
  %.388.3 = fadd double %.388.2, %.386.3
  %.428.3 = fmul double %.331.3, %.382.3
  %.430.3 = fmul double %.331.3, %.428.3
  %.436.3 = fmul double %.430.3, 5.000000e-01
  %.438.3 = fadd double %.438.2, %.436.3
  %.314.4 = icmp slt i64 %.168, -4
  %.315.4 = select i1 %.314.4, i64 %arg.p.5.0, i64 0
  %9 = getelementptr i8, ptr %1, i64 32
  %.329.4 = getelementptr double, ptr %9, i64 %.315.4
  %.330.4 = load double, ptr %.329.4, align 8
  %.331.4 = fsub double %.297, %.330.4
  %.336.4 = fcmp ugt double %.331.4, 0.000000e+00
  br i1 %.336.4, label %B204.endif.4, label %B324

B204.endif.4:
  %.366.4 = icmp slt i64 %.168, -16
  %.367.4 = select i1 %.366.4, i64 %arg.p.5.0, i64 0
  %10 = getelementptr i8, ptr %1, i64 128
  %.381.4 = getelementptr double, ptr %10, i64 %.367.4
  %.382.4 = load double, ptr %.381.4, align 8
  %.384.4 = fmul double %.163, %.382.4
  %.386.4 = fmul double %.331.4, %.384.4
  %.388.4 = fadd double %.388.3, %.386.4
  %.428.4 = fmul double %.331.4, %.382.4
  %.430.4 = fmul double %.331.4, %.428.4
  %.436.4 = fmul double %.430.4, 5.000000e-01
  %.438.4 = fadd double %.438.3, %.436.4
  %.314.5 = icmp slt i64 %.168, -5
  %.315.5 = select i1 %.314.5, i64 %arg.p.5.0, i64 0
  %11 = getelementptr i8, ptr %1, i64 40
  %.329.5 = getelementptr double, ptr %11, i64 %.315.5
  %.330.5 = load double, ptr %.329.5, align 8
  %.331.5 = fsub double %.297, %.330.5
  %.336.5 = fcmp ugt double %.331.5, 0.000000e+00
  br i1 %.336.5, label %B204.endif.5, label %B324

B204.endif.5:
  %.366.5 = icmp slt i64 %.168, -17
  %.367.5 = select i1 %.366.5, i64 %arg.p.5.0, i64 0
  %12 = getelementptr i8, ptr %1, i64 136
  %.381.5 = getelementptr double, ptr %12, i64 %.367.5
  %.382.5 = load double, ptr %.381.5, align 8
  %.384.5 = fmul double %.163, %.382.5
  %.386.5 = fmul double %.331.5, %.384.5
  %.388.5 = fadd double %.388.4, %.386.5
  %.428.5 = fmul double %.331.5, %.382.5
  %.430.5 = fmul double %.331.5, %.428.5
  %.436.5 = fmul double %.430.5, 5.000000e-01
  %.438.5 = fadd double %.438.4, %.436.5
  %.314.6 = icmp slt i64 %.168, -6
  %.315.6 = select i1 %.314.6, i64 %arg.p.5.0, i64 0
  %13 = getelementptr i8, ptr %1, i64 48
  %.329.6 = getelementptr double, ptr %13, i64 %.315.6
  %.330.6 = load double, ptr %.329.6, align 8
  %.331.6 = fsub double %.297, %.330.6
  %.336.6 = fcmp ugt double %.331.6, 0.000000e+00
  br i1 %.336.6, label %B204.endif.6, label %B324

B204.endif.6:
  %.366.6 = icmp slt i64 %.168, -18
  %.367.6 = select i1 %.366.6, i64 %arg.p.5.0, i64 0
  %14 = getelementptr i8, ptr %1, i64 144
  %.381.6 = getelementptr double, ptr %14, i64 %.367.6
  %.382.6 = load double, ptr %.381.6, align 8
  %.384.6 = fmul double %.163, %.382.6
  %.386.6 = fmul double %.331.6, %.384.6
  %.388.6 = fadd double %.388.5, %.386.6
  %.428.6 = fmul double %.331.6, %.382.6
  %.430.6 = fmul double %.331.6, %.428.6
  %.436.6 = fmul double %.430.6, 5.000000e-01
  %.438.6 = fadd double %.438.5, %.436.6
  %.314.7 = icmp slt i64 %.168, -7
  %.315.7 = select i1 %.314.7, i64 %arg.p.5.0, i64 0
  %15 = getelementptr i8, ptr %1, i64 56
  %.329.7 = getelementptr double, ptr %15, i64 %.315.7
  %.330.7 = load double, ptr %.329.7, align 8
  %.331.7 = fsub double %.297, %.330.7
  %.336.7 = fcmp ugt double %.331.7, 0.000000e+00
  br i1 %.336.7, label %B204.endif.7, label %B324

B204.endif.7:
  %.366.7 = icmp slt i64 %.168, -19
  %.367.7 = select i1 %.366.7, i64 %arg.p.5.0, i64 0
  %16 = getelementptr i8, ptr %1, i64 152
  %.381.7 = getelementptr double, ptr %16, i64 %.367.7
  %.382.7 = load double, ptr %.381.7, align 8
  %.384.7 = fmul double %.163, %.382.7
  %.386.7 = fmul double %.331.7, %.384.7
  %.388.7 = fadd double %.388.6, %.386.7
  %.428.7 = fmul double %.331.7, %.382.7
  %.430.7 = fmul double %.331.7, %.428.7
  %.436.7 = fmul double %.430.7, 5.000000e-01
  %.438.7 = fadd double %.438.6, %.436.7
  %.314.8 = icmp slt i64 %.168, -8
  %.315.8 = select i1 %.314.8, i64 %arg.p.5.0, i64 0
  %17 = getelementptr i8, ptr %1, i64 64
  %.329.8 = getelementptr double, ptr %17, i64 %.315.8
  %.330.8 = load double, ptr %.329.8, align 8
  %.331.8 = fsub double %.297, %.330.8
  %.336.8 = fcmp ugt double %.331.8, 0.000000e+00
  br i1 %.336.8, label %B204.endif.8, label %B324

B204.endif.8:
  %.366.8 = icmp slt i64 %.168, -20
  %.367.8 = select i1 %.366.8, i64 %arg.p.5.0, i64 0
  %18 = getelementptr i8, ptr %1, i64 160
  %.381.8 = getelementptr double, ptr %18, i64 %.367.8
  %.382.8 = load double, ptr %.381.8, align 8
  %.384.8 = fmul double %.163, %.382.8
  %.386.8 = fmul double %.331.8, %.384.8
  %.388.8 = fadd double %.388.7, %.386.8
  %.428.8 = fmul double %.331.8, %.382.8
  %.430.8 = fmul double %.331.8, %.428.8
  %.436.8 = fmul double %.430.8, 5.000000e-01
  %.438.8 = fadd double %.438.7, %.436.8
  %.314.9 = icmp slt i64 %.168, -9
  %.315.9 = select i1 %.314.9, i64 %arg.p.5.0, i64 0
  %19 = getelementptr i8, ptr %1, i64 72
  %.329.9 = getelementptr double, ptr %19, i64 %.315.9
  %.330.9 = load double, ptr %.329.9, align 8
  %.331.9 = fsub double %.297, %.330.9
  %.336.9 = fcmp ugt double %.331.9, 0.000000e+00
  br i1 %.336.9, label %B204.endif.9, label %B324

B204.endif.9:
  %.366.9 = icmp slt i64 %.168, -21
  %.367.9 = select i1 %.366.9, i64 %arg.p.5.0, i64 0
  %20 = getelementptr i8, ptr %1, i64 168
  %.381.9 = getelementptr double, ptr %20, i64 %.367.9
  %.382.9 = load double, ptr %.381.9, align 8
  %.384.9 = fmul double %.163, %.382.9
  %.386.9 = fmul double %.331.9, %.384.9
  %.388.9 = fadd double %.388.8, %.386.9
  %.428.9 = fmul double %.331.9, %.382.9
  %.430.9 = fmul double %.331.9, %.428.9
  %.436.9 = fmul double %.430.9, 5.000000e-01
  %.438.9 = fadd double %.438.8, %.436.9
  %.314.10 = icmp slt i64 %.168, -10
  %.315.10 = select i1 %.314.10, i64 %arg.p.5.0, i64 0
  %21 = getelementptr i8, ptr %1, i64 80
  %.329.10 = getelementptr double, ptr %21, i64 %.315.10
  %.330.10 = load double, ptr %.329.10, align 8
  %.331.10 = fsub double %.297, %.330.10
  %.336.10 = fcmp ugt double %.331.10, 0.000000e+00
  br i1 %.336.10, label %B204.endif.10, label %B324

B204.endif.10:
  %.366.10 = icmp slt i64 %.168, -22
  %.367.10 = select i1 %.366.10, i64 %arg.p.5.0, i64 0
  %22 = getelementptr i8, ptr %1, i64 176
  %.381.10 = getelementptr double, ptr %22, i64 %.367.10
  %.382.10 = load double, ptr %.381.10, align 8
  %.384.10 = fmul double %.163, %.382.10
  %.386.10 = fmul double %.331.10, %.384.10
  %.388.10 = fadd double %.388.9, %.386.10
  %.428.10 = fmul double %.331.10, %.382.10
  %.430.10 = fmul double %.331.10, %.428.10
  %.436.10 = fmul double %.430.10, 5.000000e-01
  %.438.10 = fadd double %.438.9, %.436.10
  %.314.11 = icmp slt i64 %.168, -11
  %.315.11 = select i1 %.314.11, i64 %arg.p.5.0, i64 0
  %23 = getelementptr i8, ptr %1, i64 88
  %.329.11 = getelementptr double, ptr %23, i64 %.315.11
  %.330.11 = load double, ptr %.329.11, align 8
  %.331.11 = fsub double %.297, %.330.11
  %.336.11 = fcmp ugt double %.331.11, 0.000000e+00
  br i1 %.336.11, label %B204.endif.11, label %B324

B204.endif.11:
  %.366.11 = icmp slt i64 %.168, -23
  %.367.11 = select i1 %.366.11, i64 %arg.p.5.0, i64 0
  %24 = getelementptr i8, ptr %1, i64 184
  %.381.11 = getelementptr double, ptr %24, i64 %.367.11
  %.382.11 = load double, ptr %.381.11, align 8
  %.384.11 = fmul double %.163, %.382.11
  %.386.11 = fmul double %.331.11, %.384.11
  %.388.11 = fadd double %.388.10, %.386.11
  %.428.11 = fmul double %.331.11, %.382.11
  %.430.11 = fmul double %.331.11, %.428.11
  %.436.11 = fmul double %.430.11, 5.000000e-01
  %.438.11 = fadd double %.438.10, %.436.11
  br label %B324
}

declare double @tanh(double)

declare double @llvm.sqrt.f64(double)
