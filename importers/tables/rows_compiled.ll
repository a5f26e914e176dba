; 842f17b36bee99f5d9e1e64c20ac3ebd711fc439ee465a657060fd39242803e3
; made by fixtures/make_machine_code.py from rows_compiled.py
define i32 @columns_of_rows(ptr noalias %retptr, ptr noalias %excinfo, ptr %arg.data.0, ptr %arg.data.1, i64 %arg.data.2, i64 %arg.data.3, ptr %arg.data.4, i64 %arg.data.5.0, i64 %arg.data.6.0, i64 %arg.stop, i64 %arg.delimiter, i64 %arg.decimal, ptr %arg.wanted.0, ptr %arg.wanted.1, i64 %arg.wanted.2, i64 %arg.wanted.3, ptr %arg.wanted.4, i64 %arg.wanted.5.0, i64 %arg.wanted.6.0, ptr %arg.columns.0, ptr %arg.columns.1, i64 %arg.columns.2, i64 %arg.columns.3, ptr %arg.columns.4, i64 %arg.columns.5.0, i64 %arg.columns.5.1, i64 %arg.columns.6.0, i64 %arg.columns.6.1, ptr %arg.powers.0, ptr %arg.powers.1, i64 %arg.powers.2, i64 %arg.powers.3, ptr %arg.powers.4, i64 %arg.powers.5.0, i64 %arg.powers.6.0, ptr %arg.tens.0, ptr %arg.tens.1, i64 %arg.tens.2, i64 %arg.tens.3, ptr %arg.tens.4, i64 %arg.tens.5.0, i64 %arg.tens.6.0, ptr %arg.found.0, ptr %arg.found.1, i64 %arg.found.2, i64 %arg.found.3, ptr %arg.found.4, i64 %arg.found.5.0, i64 %arg.found.6.0) {
B0:
  %arg.wanted.5.0.fr = freeze i64 %arg.wanted.5.0
  %.132 = load i64, ptr %arg.found.4, align 8
  %.143 = add nsw i64 %arg.wanted.5.0.fr, -1
  store i64 -1, ptr %arg.found.4, align 8
  %.200802 = icmp sgt i64 %arg.stop, 0
  br i1 %.200802, label %B92.preheader.lr.ph, label %B526

B92.preheader.lr.ph:
  %.445718 = icmp sgt i64 %arg.wanted.5.0.fr, 0
  br i1 %.445718, label %B92.us.us.outer.preheader, label %B92.preheader.preheader

B92.preheader.preheader:
  br label %B92.preheader

B92.us.us.outer.preheader:
  br label %B92.us.us.outer

B92.us.us.outer:
  %row.2.1.us.us.ph = phi i64 [ %.935.us.us, %B504.us.us ], [ %.132, %B92.us.us.outer.preheader ]
  %at.7.1.us.us.ph = phi i64 [ %.78.i12, %B504.us.us ], [ 0, %B92.us.us.outer.preheader ]
  br label %B92.us.us

B92.us.us:
  %at.7.1.us.us = phi i64 [ %.78.i, %B80.loopexit.split.us.us ], [ %at.7.1.us.us.ph, %B92.us.us.outer ]
  %.29.i = getelementptr i8, ptr %arg.data.4, i64 %at.7.1.us.us
  %.30.i = load i8, ptr %.29.i, align 1
  %0 = zext i8 %.30.i to i32
  switch i32 %0, label %B92.endif.us.us.thread120 [
    i32 10, label %B92.endif.us.us.thread
    i32 13, label %B114.i
  ]

B92.endif.us.us.thread:
  br label %B80.loopexit.split.us.us

B114.i:
  %sunkaddr = getelementptr i8, ptr %arg.data.4, i64 %at.7.1.us.us
  %sunkaddr340 = getelementptr i8, ptr %sunkaddr, i64 1
  %.68.i = load i8, ptr %sunkaddr340, align 1
  %.75.i = icmp eq i8 %.68.i, 10
  br i1 %.75.i, label %B80.loopexit.split.us.us, label %B92.endif.us.us.thread120

B92.endif.us.us.thread120:
  %data.sroa.0.0.i = phi ptr [ null, %B114.i ], [ %arg.data.0, %B92.us.us ]
  %.277.us.us = icmp eq i64 %row.2.1.us.us.ph, %arg.columns.5.1
  br i1 %.277.us.us, label %B176, label %B200.endif.us.us

B200.endif.us.us:
  %const339 = bitcast i64 -9187201950435737472 to i64
  %const338 = bitcast i64 9187201950435737470 to i64
  %const337 = bitcast i64 8536140394893047414 to i64
  %const336 = bitcast i64 3472328296227680304 to i64
  %const335 = bitcast i64 4294967296000100 to i64
  %const334 = bitcast i64 42949672960001 to i64
  %const = bitcast i64 1095216660735 to i64
  %invariant.gep.us.us = getelementptr double, ptr %arg.columns.4, i64 %row.2.1.us.us.ph
  %.669.us.us = icmp slt i64 %row.2.1.us.us.ph, 0
  %.670.us.us = select i1 %.669.us.us, i64 %arg.columns.5.1, i64 0
  %invariant.gep725.us.us = getelementptr double, ptr %invariant.gep.us.us, i64 %.670.us.us
  br label %B242.us.us

B456.endif.us.us:
  %.sink = phi i64 [ 1, %B54.i13 ], [ 2, %B114.i3 ]
  %.78.i12 = add nsw i64 %at.9.3.us.us, %.sink
  %.883.us.us = icmp slt i64 %.78.i12, 0
  br i1 %.883.us.us, label %B500, label %B504.us.us

B504.us.us:
  %.935.us.us = add nsw i64 %row.2.1.us.us.ph, 1
  %.942.us.us = icmp slt i64 %.78.i12, %arg.stop
  br i1 %.942.us.us, label %B92.us.us.outer, label %B526

B242.us.us:
  %column.2.2722.us.us = phi i64 [ 0, %B200.endif.us.us ], [ %column.3.3.us.us, %B454.us.us ]
  %at.8.2721.us.us = phi i64 [ %at.7.1.us.us, %B200.endif.us.us ], [ %at.9.3.us.us, %B454.us.us ]
  %.451714719.us.us = phi i64 [ 0, %B200.endif.us.us ], [ %.458.us.us, %B454.us.us ]
  %.458.us.us = add nuw nsw i64 %.451714719.us.us, 1
  %1 = getelementptr i8, ptr %arg.wanted.4, i64 %.451714719.us.us
  %.516.us.us = load i8, ptr %1, align 1
  %.517.not.us.us = icmp eq i8 %.516.us.us, 0
  br i1 %.517.not.us.us, label %B352.us.us, label %B260.us.us

B260.us.us:
  %.24.i.i = getelementptr i8, ptr %arg.data.4, i64 %at.8.2721.us.us
  %.25.i.i = load i8, ptr %.24.i.i, align 1
  %2 = zext i8 %.25.i.i to i32
  %.26.i.i = zext i8 %.25.i.i to i64
  %.34.i.i = icmp ne i64 %arg.delimiter, %.26.i.i
  %3 = freeze i1 %.34.i.i
  br i1 %3, label %switch.early.test.i, label %B48.i

switch.early.test.i:
  switch i32 %2, label %B76.endif.i [
    i32 13, label %B48.i
    i32 10, label %B48.i
    i32 32, label %B80.i.i
    i32 9, label %B80.i.i
  ]

B48.i:
  br label %B260.endif.us.us

B80.i.i:
  %.59.not.i.i = icmp eq i64 %arg.delimiter, %.26.i.i
  br i1 %.59.not.i.i, label %B76.endif.i, label %B92.i.i.preheader

B92.i.i.preheader:
  %4 = add i64 %at.8.2721.us.us, 1
  br label %B92.i.i

B92.i.i:
  %lsr.iv = phi i64 [ %4, %B92.i.i.preheader ], [ %lsr.iv.next, %B178.i.i ]
  %scevgep = getelementptr i8, ptr %arg.data.4, i64 %lsr.iv
  %.84.i.i = load i8, ptr %scevgep, align 1
  %.85.i.i = zext i8 %.84.i.i to i64
  %5 = zext i8 %.84.i.i to i32
  switch i32 %5, label %B76.endif.i [
    i32 32, label %B178.i.i
    i32 9, label %B178.i.i
  ]

B178.i.i:
  %.108.not.i.i = icmp eq i64 %arg.delimiter, %.85.i.i
  %lsr.iv.next = add i64 %lsr.iv, 1
  br i1 %.108.not.i.i, label %B76.endif.i, label %B92.i.i

B264.i:
  %.262.i = getelementptr i8, ptr %arg.data.4, i64 %.209.sink.i.i
  %.263.i = load i8, ptr %.262.i, align 1
  %6 = zext i8 %.263.i to i32
  switch i32 %6, label %B420.i [
    i32 101, label %B364.i
    i32 69, label %B364.i
  ]

B364.i:
  %.288.i = add nuw nsw i64 %.209.sink.i.i, 1
  %.43.i.i = getelementptr i8, ptr %arg.data.4, i64 %.288.i
  %.44.i.i = load i8, ptr %.43.i.i, align 1
  %.46.i.i = icmp eq i8 %.44.i.i, 45
  %.76.i.i = icmp eq i8 %.44.i.i, 43
  %spec.select.i19.i = or i1 %.46.i.i, %.76.i.i
  %.84.i20.i = zext i1 %spec.select.i19.i to i64
  %.90.i.i = add nuw nsw i64 %.288.i, %.84.i20.i
  %.23.i.i.i.i = getelementptr i8, ptr %arg.data.4, i64 %.90.i.i
  %.25.i.i.i21.i = load i64, ptr %.23.i.i.i.i, align 1
  %.29.i.i.i22.i = xor i64 %.25.i.i.i21.i, %const336
  %.5.i.i.i23.i = and i64 %.29.i.i.i22.i, %const338
  %.6.i.i.i24.i = add nuw i64 %.5.i.i.i23.i, %const337
  %.7.i.i.i25.i = or i64 %.6.i.i.i24.i, %.25.i.i.i21.i
  %.8.i.i.i26.i = and i64 %.7.i.i.i25.i, %const339
  %.108.not.i.i27.i = icmp eq i64 %.8.i.i.i26.i, 0
  br i1 %.108.not.i.i27.i, label %B10.endif.endif.1.i.i59.i, label %B76.i.i28.i

B76.i.i28.i:
  %.94.lcssa.i.i29.i = phi i64 [ %.8.i.i.i26.i, %B364.i ], [ %.8.i10.i.i77.i, %B10.endif.endif.1.i.i59.i ], [ %.8.i14.i.i99.i, %B10.endif.endif.2.i.i79.i ]
  %at.2.0.lcssa150.i.i30.i = phi i64 [ %.90.i.i, %B364.i ], [ %.266.i.i70.i, %B10.endif.endif.1.i.i59.i ], [ %.266.1.i.i92.i, %B10.endif.endif.2.i.i79.i ]
  %number.3.0.lcssa146.i.i31.i = phi i64 [ 0, %B364.i ], [ %.18.i28.i.i69.i, %B10.endif.endif.1.i.i59.i ], [ %.261.1.i.i91.i, %B10.endif.endif.2.i.i79.i ]
  %.63.lcssa138.i.i32.i = phi i64 [ %.29.i.i.i22.i, %B364.i ], [ %.29.i3.i.i73.i, %B10.endif.endif.1.i.i59.i ], [ %.29.i6.i.i95.i, %B10.endif.endif.2.i.i79.i ]
  %.122.i.i33.i = tail call i64 @llvm.cttz.i64(i64 %.94.lcssa.i.i29.i, i1 true)
  %.125.i.i34.i = lshr i64 %.122.i.i33.i, 3
  %.130.not.i.i35.i = icmp eq i64 %.125.i.i34.i, 0
  br i1 %.130.not.i.i35.i, label %B224.i.i.i, label %B142.endif.i.i36.i

B224.i.i.i:
  %powers.sroa.0.0.i.i54.i = phi ptr [ null, %B142.endif.i.i36.i ], [ %arg.powers.0, %B76.i.i28.i ]
  %number.4.0.i.i55.i = phi i64 [ %.198.i.i53.i, %B142.endif.i.i36.i ], [ %number.3.0.lcssa146.i.i31.i, %B76.i.i28.i ]
  %.215.i.i56.i = add nuw nsw i64 %.125.i.i34.i, %at.2.0.lcssa150.i.i30.i
  br label %B364.endif.i

B142.endif.i.i36.i:
  %.158.i.i37.i = getelementptr i64, ptr %arg.powers.4, i64 %.125.i.i34.i
  %.159.i.i38.i = load i64, ptr %.158.i.i37.i, align 8
  %.6.i15.i.i39.i = and i64 %.122.i.i33.i, 56
  %.7.i16.i.i40.i = sub nuw nsw i64 64, %.6.i15.i.i39.i
  %.8.i17.i.i41.i = shl i64 %.63.lcssa138.i.i32.i, %.7.i16.i.i40.i
  %.9.i.i.i42.i = mul i64 %.8.i17.i.i41.i, 10
  %.10.i.i.i43.i = lshr i64 %.8.i17.i.i41.i, 8
  %.11.i.i.i44.i = add i64 %.9.i.i.i42.i, %.10.i.i.i43.i
  %.12.i.i.i45.i = and i64 %.11.i.i.i44.i, %const
  %.13.i.i.i46.i = mul i64 %.12.i.i.i45.i, %const335
  %.14.i.i.i47.i = lshr i64 %.11.i.i.i44.i, 16
  %.15.i.i.i48.i = and i64 %.14.i.i.i47.i, %const
  %.16.i.i.i49.i = mul i64 %.15.i.i.i48.i, %const334
  %.17.i.i.i50.i = add i64 %.16.i.i.i49.i, %.13.i.i.i46.i
  %.18.i.i.i51.i = lshr i64 %.17.i.i.i50.i, 32
  %.166.i.i52.i = mul i64 %.159.i.i38.i, %number.3.0.lcssa146.i.i31.i
  %.198.i.i53.i = add i64 %.166.i.i52.i, %.18.i.i.i51.i
  br label %B224.i.i.i

B10.endif.endif.1.i.i59.i:
  %.9.i19.i.i60.i = mul i64 %.29.i.i.i22.i, 10
  %.10.i20.i.i61.i = lshr i64 %.29.i.i.i22.i, 8
  %.11.i21.i.i62.i = add i64 %.9.i19.i.i60.i, %.10.i20.i.i61.i
  %.12.i22.i.i63.i = and i64 %.11.i21.i.i62.i, %const
  %.13.i23.i.i64.i = mul i64 %.12.i22.i.i63.i, %const335
  %.14.i24.i.i65.i = lshr i64 %.11.i21.i.i62.i, 16
  %.15.i25.i.i66.i = and i64 %.14.i24.i.i65.i, %const
  %.16.i26.i.i67.i = mul i64 %.15.i25.i.i66.i, %const334
  %.17.i27.i.i68.i = add i64 %.16.i26.i.i67.i, %.13.i23.i.i64.i
  %.18.i28.i.i69.i = lshr i64 %.17.i27.i.i68.i, 32
  %.266.i.i70.i = add nuw nsw i64 %.90.i.i, 8
  %.23.i1.i.i71.i = getelementptr i8, ptr %arg.data.4, i64 %.266.i.i70.i
  %.25.i2.i.i72.i = load i64, ptr %.23.i1.i.i71.i, align 1
  %.29.i3.i.i73.i = xor i64 %.25.i2.i.i72.i, %const336
  %.5.i7.i.i74.i = and i64 %.29.i3.i.i73.i, %const338
  %.6.i8.i.i75.i = add nuw i64 %.5.i7.i.i74.i, %const337
  %.7.i9.i.i76.i = or i64 %.6.i8.i.i75.i, %.25.i2.i.i72.i
  %.8.i10.i.i77.i = and i64 %.7.i9.i.i76.i, %const339
  %.108.not.1.i.i78.i = icmp eq i64 %.8.i10.i.i77.i, 0
  br i1 %.108.not.1.i.i78.i, label %B10.endif.endif.2.i.i79.i, label %B76.i.i28.i

B10.endif.endif.2.i.i79.i:
  %.9.i30.i.i80.i = mul i64 %.29.i3.i.i73.i, 10
  %.10.i31.i.i81.i = lshr i64 %.29.i3.i.i73.i, 8
  %.11.i32.i.i82.i = add i64 %.9.i30.i.i80.i, %.10.i31.i.i81.i
  %.12.i33.i.i83.i = and i64 %.11.i32.i.i82.i, %const
  %.13.i34.i.i84.i = mul i64 %.12.i33.i.i83.i, %const335
  %.14.i35.i.i85.i = lshr i64 %.11.i32.i.i82.i, 16
  %.15.i36.i.i86.i = and i64 %.14.i35.i.i85.i, %const
  %.16.i37.i.i87.i = mul i64 %.15.i36.i.i86.i, %const334
  %.17.i38.i.i88.i = add i64 %.16.i37.i.i87.i, %.13.i34.i.i84.i
  %.18.i39.i.i89.i = lshr i64 %.17.i38.i.i88.i, 32
  %.230.1.i.i90.i = mul nuw nsw i64 %.18.i28.i.i69.i, 100000000
  %.261.1.i.i91.i = add nuw nsw i64 %.18.i39.i.i89.i, %.230.1.i.i90.i
  %.266.1.i.i92.i = add nuw nsw i64 %.90.i.i, 16
  %.23.i4.i.i93.i = getelementptr i8, ptr %arg.data.4, i64 %.266.1.i.i92.i
  %.25.i5.i.i94.i = load i64, ptr %.23.i4.i.i93.i, align 1
  %.29.i6.i.i95.i = xor i64 %.25.i5.i.i94.i, %const336
  %.5.i11.i.i96.i = and i64 %.29.i6.i.i95.i, %const338
  %.6.i12.i.i97.i = add nuw i64 %.5.i11.i.i96.i, %const337
  %.7.i13.i.i98.i = or i64 %.6.i12.i.i97.i, %.25.i5.i.i94.i
  %.8.i14.i.i99.i = and i64 %.7.i13.i.i98.i, %const339
  %.108.not.2.i.i100.i = icmp eq i64 %.8.i14.i.i99.i, 0
  br i1 %.108.not.2.i.i100.i, label %B274.endif.2.i.i.i, label %B76.i.i28.i

B274.endif.2.i.i.i:
  %.9.i41.i.i101.i = mul i64 %.29.i6.i.i95.i, 10
  %.10.i42.i.i102.i = lshr i64 %.29.i6.i.i95.i, 8
  %.11.i43.i.i103.i = add i64 %.9.i41.i.i101.i, %.10.i42.i.i102.i
  %.12.i44.i.i104.i = and i64 %.11.i43.i.i103.i, %const
  %.13.i45.i.i105.i = mul i64 %.12.i44.i.i104.i, %const335
  %.14.i46.i.i106.i = lshr i64 %.11.i43.i.i103.i, 16
  %.15.i47.i.i107.i = and i64 %.14.i46.i.i106.i, %const
  %.16.i48.i.i108.i = mul i64 %.15.i47.i.i107.i, %const334
  %.17.i49.i.i109.i = add i64 %.16.i48.i.i108.i, %.13.i45.i.i105.i
  %.18.i50.i.i110.i = lshr i64 %.17.i49.i.i109.i, 32
  %.230.2.i.i111.i = mul i64 %.261.1.i.i91.i, 100000000
  %.261.2.i.i112.i = add i64 %.18.i50.i.i110.i, %.230.2.i.i111.i
  br label %B364.endif.i

B420.i:
  %.211.fca.1.load122.i = phi i64 [ %.202.sink.i.i, %B364.endif.i ], [ %.202.sink.i.i, %B264.i ], [ %.202.sink.i.i, %B76.endif.endif.i ], [ %behind.2.0.i.i, %B1252.i.i ]
  %.18.i.sink.i121.i = phi i64 [ %.18.i.sink.i.i, %B364.endif.i ], [ %.18.i.sink.i.i, %B264.i ], [ %.18.i.sink.i.i, %B76.endif.endif.i ], [ %number.5.0.i.i, %B1252.i.i ]
  %powers.sroa.0.0.i = phi ptr [ null, %B364.endif.i ], [ %arg.powers.0, %B264.i ], [ %arg.powers.0, %B76.endif.endif.i ], [ %arg.powers.0, %B1252.i.i ]
  %at.4.1.i = phi i64 [ %.sink.i.i, %B364.endif.i ], [ %.209.sink.i.i, %B264.i ], [ %.209.sink.i.i, %B76.endif.endif.i ], [ -1, %B1252.i.i ]
  %.311.fca.0.load.pn.i = phi i64 [ %.sink1.i.i, %B364.endif.i ], [ 0, %B264.i ], [ 0, %B76.endif.endif.i ], [ 0, %B1252.i.i ]
  %power.2.1.i = sub i64 %.311.fca.0.load.pn.i, %.211.fca.1.load122.i
  %.353.i = icmp slt i64 %at.4.1.i, 0
  %.356.i = icmp ugt i64 %.18.i.sink.i121.i, 9007199254740992
  %or.cond.i = select i1 %.353.i, i1 true, i1 %.356.i
  br i1 %or.cond.i, label %B260.endif.us.us.thread, label %B454.i

B454.i:
  %7 = add i64 %power.2.1.i, 22
  %or.cond324.i = icmp ult i64 %7, 45
  br i1 %or.cond324.i, label %B510.i, label %B506.sink.split.i

B506.sink.split.i:
  br label %B260.endif.us.us.thread

B260.endif.us.us.thread:
  %data.sroa.0.0.i77 = phi ptr [ null, %B506.sink.split.i ], [ %arg.data.0, %B420.i ]
  %tens.sroa.0.0.i = phi ptr [ null, %B506.sink.split.i ], [ %arg.tens.0, %B420.i ]
  br label %B320.split.us

B510.i:
  %.448.i = uitofp i64 %.18.i.sink.i121.i to double
  %.453.i = icmp slt i64 %power.2.1.i, 1
  br i1 %.453.i, label %B598.i, label %B622.i

B598.i:
  %.456.i = sub nsw i64 0, %power.2.1.i
  %.487.i = getelementptr double, ptr %arg.tens.4, i64 %.456.i
  %.488.i = load double, ptr %.487.i, align 8
  %.498.i = fdiv double %.448.i, %.488.i
  br label %B642.i

B622.i:
  %.534.i = getelementptr double, ptr %arg.tens.4, i64 %power.2.1.i
  %.535.i = load double, ptr %.534.i, align 8
  %.544.i = fmul double %.535.i, %.448.i
  br label %B642.i

B642.i:
  %"$phi642.0.2.0.i" = phi double [ %.498.i, %B598.i ], [ %.544.i, %B622.i ]
  %.32.i2.i = getelementptr i8, ptr %arg.data.4, i64 %at.4.1.i
  %.33.i3.i = load i8, ptr %.32.i2.i, align 1
  %.34.i4.i = zext i8 %.33.i3.i to i64
  %8 = zext i8 %.33.i3.i to i32
  switch i32 %8, label %B656.endif.i [
    i32 32, label %B80.i5.i
    i32 9, label %B80.i5.i
  ]

B80.i5.i:
  %.59.not.i6.i = icmp eq i64 %arg.delimiter, %.34.i4.i
  br i1 %.59.not.i6.i, label %B656.endif.i, label %B92.i8.i.preheader

B92.i8.i.preheader:
  %9 = add i64 %at.4.1.i, 1
  br label %B92.i8.i

B92.i8.i:
  %lsr.iv324 = phi i64 [ %9, %B92.i8.i.preheader ], [ %lsr.iv.next325, %B178.i13.i ]
  %scevgep326 = getelementptr i8, ptr %arg.data.4, i64 %lsr.iv324
  %.84.i11.i = load i8, ptr %scevgep326, align 1
  %.85.i12.i = zext i8 %.84.i11.i to i64
  %10 = zext i8 %.84.i11.i to i32
  switch i32 %10, label %B656.endif.i [
    i32 32, label %B178.i13.i
    i32 9, label %B178.i13.i
  ]

B178.i13.i:
  %.108.not.i14.i = icmp eq i64 %arg.delimiter, %.85.i12.i
  %lsr.iv.next325 = add i64 %lsr.iv324, 1
  br i1 %.108.not.i14.i, label %B656.endif.i, label %B92.i8.i

B76.endif.i:
  %.179.i = phi i8 [ %.25.i.i, %B80.i.i ], [ %.25.i.i, %switch.early.test.i ], [ %.84.i.i, %B92.i.i ], [ %.84.i.i, %B178.i.i ]
  %at.3.1.i.i = phi i64 [ %at.8.2721.us.us, %B80.i.i ], [ %at.8.2721.us.us, %switch.early.test.i ], [ %lsr.iv, %B92.i.i ], [ %lsr.iv, %B178.i.i ]
  %.181.i = icmp eq i8 %.179.i, 45
  %.188.i = zext i1 %.181.i to i64
  %.189.i = add nsw i64 %at.3.1.i.i, %.188.i
  %.23.i.i.i = getelementptr i8, ptr %arg.data.4, i64 %.189.i
  %.25.i.i.i = load i64, ptr %.23.i.i.i, align 1
  %.29.i.i.i = xor i64 %.25.i.i.i, %const336
  %.5.i.i.i = and i64 %.29.i.i.i, %const338
  %.6.i.i.i = add nuw i64 %.5.i.i.i, %const337
  %.7.i.i.i = or i64 %.6.i.i.i, %.25.i.i.i
  %.8.i.i.i = and i64 %.7.i.i.i, %const339
  %.102.i.i = tail call i64 @llvm.cttz.i64(i64 %.8.i.i.i, i1 false)
  %.103.i.i = lshr i64 %.102.i.i, 3
  %.108.i.i = icmp ne i64 %.8.i.i.i, 0
  %.111.i.i = icmp ne i64 %.103.i.i, 0
  %or.cond.i18.i = select i1 %.108.i.i, i1 %.111.i.i, i1 false
  br i1 %or.cond.i18.i, label %B140.i.i, label %B1056.i.i

B140.i.i:
  %.114.i.i = and i64 %.102.i.i, 120
  %.116.i.i = lshr i64 %.29.i.i.i, %.114.i.i
  %.117.i.i = and i64 %.116.i.i, 255
  %11 = xor i64 %.117.i.i, %arg.decimal
  %.120.i.i = icmp eq i64 %11, 48
  br i1 %.120.i.i, label %B276.i.i, label %B1056.i.i

B276.i.i:
  %notmask.i.i = shl nsw i64 -1, %.114.i.i
  %.125.i.i = xor i64 %notmask.i.i, -1
  %.127.i.i = and i64 %.29.i.i.i, %.125.i.i
  %.129.i.i = and i64 %notmask.i.i, %.29.i.i.i
  %.132.i.i = lshr i64 %.129.i.i, 8
  %.138.i.i = and i64 %.132.i.i, %notmask.i.i
  %.139.i.i = or i64 %.138.i.i, %.127.i.i
  %.144.i.i = add i64 %.8.i.i.i, -1
  %.146.i.i = and i64 %.144.i.i, %.8.i.i.i
  %.153.not.i.i = icmp eq i64 %.146.i.i, 0
  br i1 %.153.not.i.i, label %B646.endif.endif.i.i, label %B440.endif.i.i

B924.i.i:
  %powers.sroa.0.0.i.i = phi ptr [ null, %B842.endif.i.i ], [ %arg.powers.0, %B718.endif.i.i ]
  %number.4.0.i.i = phi i64 [ %.404.i.i, %B842.endif.i.i ], [ %.18.i21.i.i, %B718.endif.i.i ]
  %reass.sub = sub nsw i64 %.296.i.i, %.103.i.i
  %.420.i.i = add nsw i64 %reass.sub, 7
  %.430.i.i = add nsw i64 %.296.i.i, %.222.i.i
  br label %B76.endif.endif.i

B1056.i.i:
  %sunkaddr348 = getelementptr i8, ptr %arg.data.4, i64 %.189.i
  %.25.i.i.i.i = load i64, ptr %sunkaddr348, align 1
  %.29.i.i.i.i = xor i64 %.25.i.i.i.i, %const336
  %.5.i.i.i.i = and i64 %.29.i.i.i.i, %const338
  %.6.i.i.i.i = add nuw i64 %.5.i.i.i.i, %const337
  %.7.i.i.i.i = or i64 %.6.i.i.i.i, %.25.i.i.i.i
  %.8.i.i.i.i = and i64 %.7.i.i.i.i, %const339
  %.108.not.i.i.i = icmp eq i64 %.8.i.i.i.i, 0
  br i1 %.108.not.i.i.i, label %B10.endif.endif.1.i.i.i, label %B76.i.i.i

B76.i.i.i:
  %.94.lcssa.i.i.i = phi i64 [ %.8.i.i.i.i, %B1056.i.i ], [ %.8.i10.i.i.i, %B10.endif.endif.1.i.i.i ], [ %.8.i14.i.i.i, %B10.endif.endif.2.i.i.i ]
  %at.2.0.lcssa150.i.i.i = phi i64 [ %.189.i, %B1056.i.i ], [ %.266.i.i.i, %B10.endif.endif.1.i.i.i ], [ %.266.1.i.i.i, %B10.endif.endif.2.i.i.i ]
  %number.3.0.lcssa146.i.i.i = phi i64 [ 0, %B1056.i.i ], [ %.18.i28.i.i.i, %B10.endif.endif.1.i.i.i ], [ %.261.1.i.i.i, %B10.endif.endif.2.i.i.i ]
  %.63.lcssa138.i.i.i = phi i64 [ %.29.i.i.i.i, %B1056.i.i ], [ %.29.i3.i.i.i, %B10.endif.endif.1.i.i.i ], [ %.29.i6.i.i.i, %B10.endif.endif.2.i.i.i ]
  %.122.i.i.i = tail call i64 @llvm.cttz.i64(i64 %.94.lcssa.i.i.i, i1 true)
  %.125.i.i.i = lshr i64 %.122.i.i.i, 3
  %.130.not.i.i.i = icmp eq i64 %.125.i.i.i, 0
  br i1 %.130.not.i.i.i, label %B1056.endif.i.i, label %B142.endif.i.i.i

B142.endif.i.i.i:
  %.158.i.i.i = getelementptr i64, ptr %arg.powers.4, i64 %.125.i.i.i
  %.159.i.i.i = load i64, ptr %.158.i.i.i, align 8
  %.6.i15.i.i.i = and i64 %.122.i.i.i, 56
  %.7.i16.i.i.i = sub nuw nsw i64 64, %.6.i15.i.i.i
  %.8.i17.i.i.i = shl i64 %.63.lcssa138.i.i.i, %.7.i16.i.i.i
  %.9.i.i.i.i = mul i64 %.8.i17.i.i.i, 10
  %.10.i.i.i.i = lshr i64 %.8.i17.i.i.i, 8
  %.11.i.i.i.i = add i64 %.9.i.i.i.i, %.10.i.i.i.i
  %.12.i.i.i.i = and i64 %.11.i.i.i.i, %const
  %.13.i.i.i.i = mul i64 %.12.i.i.i.i, %const335
  %.14.i.i.i.i = lshr i64 %.11.i.i.i.i, 16
  %.15.i.i.i.i = and i64 %.14.i.i.i.i, %const
  %.16.i.i.i.i = mul i64 %.15.i.i.i.i, %const334
  %.17.i.i.i.i = add i64 %.16.i.i.i.i, %.13.i.i.i.i
  %.18.i.i.i.i = lshr i64 %.17.i.i.i.i, 32
  %.166.i.i.i = mul i64 %.159.i.i.i, %number.3.0.lcssa146.i.i.i
  %.198.i.i.i = add i64 %.166.i.i.i, %.18.i.i.i.i
  br label %B1056.endif.i.i

B10.endif.endif.1.i.i.i:
  %.9.i19.i.i.i = mul i64 %.29.i.i.i.i, 10
  %.10.i20.i.i.i = lshr i64 %.29.i.i.i.i, 8
  %.11.i21.i.i.i = add i64 %.9.i19.i.i.i, %.10.i20.i.i.i
  %.12.i22.i.i.i = and i64 %.11.i21.i.i.i, %const
  %.13.i23.i.i.i = mul i64 %.12.i22.i.i.i, %const335
  %.14.i24.i.i.i = lshr i64 %.11.i21.i.i.i, 16
  %.15.i25.i.i.i = and i64 %.14.i24.i.i.i, %const
  %.16.i26.i.i.i = mul i64 %.15.i25.i.i.i, %const334
  %.17.i27.i.i.i = add i64 %.16.i26.i.i.i, %.13.i23.i.i.i
  %.18.i28.i.i.i = lshr i64 %.17.i27.i.i.i, 32
  %.266.i.i.i = add nsw i64 %.189.i, 8
  %.23.i1.i.i.i = getelementptr i8, ptr %arg.data.4, i64 %.266.i.i.i
  %.25.i2.i.i.i = load i64, ptr %.23.i1.i.i.i, align 1
  %.29.i3.i.i.i = xor i64 %.25.i2.i.i.i, %const336
  %.5.i7.i.i.i = and i64 %.29.i3.i.i.i, %const338
  %.6.i8.i.i.i = add nuw i64 %.5.i7.i.i.i, %const337
  %.7.i9.i.i.i = or i64 %.6.i8.i.i.i, %.25.i2.i.i.i
  %.8.i10.i.i.i = and i64 %.7.i9.i.i.i, %const339
  %.108.not.1.i.i.i = icmp eq i64 %.8.i10.i.i.i, 0
  br i1 %.108.not.1.i.i.i, label %B10.endif.endif.2.i.i.i, label %B76.i.i.i

B10.endif.endif.2.i.i.i:
  %.9.i30.i.i.i = mul i64 %.29.i3.i.i.i, 10
  %.10.i31.i.i.i = lshr i64 %.29.i3.i.i.i, 8
  %.11.i32.i.i.i = add i64 %.9.i30.i.i.i, %.10.i31.i.i.i
  %.12.i33.i.i.i = and i64 %.11.i32.i.i.i, %const
  %.13.i34.i.i.i = mul i64 %.12.i33.i.i.i, %const335
  %.14.i35.i.i.i = lshr i64 %.11.i32.i.i.i, 16
  %.15.i36.i.i.i = and i64 %.14.i35.i.i.i, %const
  %.16.i37.i.i.i = mul i64 %.15.i36.i.i.i, %const334
  %.17.i38.i.i.i = add i64 %.16.i37.i.i.i, %.13.i34.i.i.i
  %.18.i39.i.i.i = lshr i64 %.17.i38.i.i.i, 32
  %.230.1.i.i.i = mul nuw nsw i64 %.18.i28.i.i.i, 100000000
  %.261.1.i.i.i = add nuw nsw i64 %.18.i39.i.i.i, %.230.1.i.i.i
  %.266.1.i.i.i = add nsw i64 %.189.i, 16
  %.23.i4.i.i.i = getelementptr i8, ptr %arg.data.4, i64 %.266.1.i.i.i
  %.25.i5.i.i.i = load i64, ptr %.23.i4.i.i.i, align 1
  %.29.i6.i.i.i = xor i64 %.25.i5.i.i.i, %const336
  %.5.i11.i.i.i = and i64 %.29.i6.i.i.i, %const338
  %.6.i12.i.i.i = add nuw i64 %.5.i11.i.i.i, %const337
  %.7.i13.i.i.i = or i64 %.6.i12.i.i.i, %.25.i5.i.i.i
  %.8.i14.i.i.i = and i64 %.7.i13.i.i.i, %const339
  %.108.not.2.i.i.i = icmp eq i64 %.8.i14.i.i.i, 0
  br i1 %.108.not.2.i.i.i, label %B1056.endif.thread.i.i, label %B76.i.i.i

B1056.endif.thread.i.i:
  %.9.i41.i.i.i = mul i64 %.29.i6.i.i.i, 10
  %.10.i42.i.i.i = lshr i64 %.29.i6.i.i.i, 8
  %.11.i43.i.i.i = add i64 %.9.i41.i.i.i, %.10.i42.i.i.i
  %.12.i44.i.i.i = and i64 %.11.i43.i.i.i, %const
  %.13.i45.i.i.i = mul i64 %.12.i44.i.i.i, %const335
  %.14.i46.i.i.i = lshr i64 %.11.i43.i.i.i, 16
  %.15.i47.i.i.i = and i64 %.14.i46.i.i.i, %const
  %.16.i48.i.i.i = mul i64 %.15.i47.i.i.i, %const334
  %.17.i49.i.i.i = add i64 %.16.i48.i.i.i, %.13.i45.i.i.i
  %.18.i50.i.i.i = lshr i64 %.17.i49.i.i.i, 32
  %.230.2.i.i.i = mul i64 %.261.1.i.i.i, 100000000
  %.261.2.i.i.i = add i64 %.18.i50.i.i.i, %.230.2.i.i.i
  br label %B1252.i.i

B1150.i.i:
  %.541.i.i = getelementptr i8, ptr %arg.data.4, i64 %.215.i.i.i
  %.542.i.i = load i8, ptr %.541.i.i, align 1
  %.543.i.i = zext i8 %.542.i.i to i64
  %.545.i.i = icmp eq i64 %arg.decimal, %.543.i.i
  br i1 %.545.i.i, label %B1190.i.i, label %B1252.i.i

B1190.i.i:
  %.550.i.i = add nuw nsw i64 %.215.i.i.i, 1
  %.23.i.i35.i.i = getelementptr i8, ptr %arg.data.4, i64 %.550.i.i
  %.25.i.i36.i.i = load i64, ptr %.23.i.i35.i.i, align 1
  %.29.i.i37.i.i = xor i64 %.25.i.i36.i.i, %const336
  %.5.i.i38.i.i = and i64 %.29.i.i37.i.i, %const338
  %.6.i.i39.i.i = add nuw i64 %.5.i.i38.i.i, %const337
  %.7.i.i40.i.i = or i64 %.6.i.i39.i.i, %.25.i.i36.i.i
  %.8.i.i41.i.i = and i64 %.7.i.i40.i.i, %const339
  %.108.not.i42.i.i = icmp eq i64 %.8.i.i41.i.i, 0
  br i1 %.108.not.i42.i.i, label %B10.endif.endif.1.i76.i.i, label %B76.i43.i.i

B76.i43.i.i:
  %.94.lcssa.i44.i.i = phi i64 [ %.8.i.i41.i.i, %B1190.i.i ], [ %.8.i10.i94.i.i, %B10.endif.endif.1.i76.i.i ], [ %.8.i14.i116.i.i, %B10.endif.endif.2.i96.i.i ]
  %at.2.0.lcssa150.i45.i.i = phi i64 [ %.550.i.i, %B1190.i.i ], [ %.266.i87.i.i, %B10.endif.endif.1.i76.i.i ], [ %.266.1.i109.i.i, %B10.endif.endif.2.i96.i.i ]
  %number.3.0.lcssa146.i46.i.i = phi i64 [ %number.4.0.i.i.i, %B1190.i.i ], [ %.261.i.i.i, %B10.endif.endif.1.i76.i.i ], [ %.261.1.i108.i.i, %B10.endif.endif.2.i96.i.i ]
  %.63.lcssa138.i47.i.i = phi i64 [ %.29.i.i37.i.i, %B1190.i.i ], [ %.29.i3.i90.i.i, %B10.endif.endif.1.i76.i.i ], [ %.29.i6.i112.i.i, %B10.endif.endif.2.i96.i.i ]
  %.122.i48.i.i = tail call i64 @llvm.cttz.i64(i64 %.94.lcssa.i44.i.i, i1 true)
  %.125.i49.i.i = lshr i64 %.122.i48.i.i, 3
  %.130.not.i50.i.i = icmp eq i64 %.125.i49.i.i, 0
  br i1 %.130.not.i50.i.i, label %B224.i69.i.i, label %B142.endif.i51.i.i

B224.i69.i.i:
  %powers.sroa.0.0.i70.i.i = phi ptr [ null, %B142.endif.i51.i.i ], [ %arg.powers.0, %B76.i43.i.i ]
  %number.4.0.i71.i.i = phi i64 [ %.198.i68.i.i, %B142.endif.i51.i.i ], [ %number.3.0.lcssa146.i46.i.i, %B76.i43.i.i ]
  %.215.i72.i.i = add nuw nsw i64 %.125.i49.i.i, %at.2.0.lcssa150.i45.i.i
  br label %B1190.endif.i.i

B142.endif.i51.i.i:
  %.158.i52.i.i = getelementptr i64, ptr %arg.powers.4, i64 %.125.i49.i.i
  %.159.i53.i.i = load i64, ptr %.158.i52.i.i, align 8
  %.6.i15.i54.i.i = and i64 %.122.i48.i.i, 56
  %.7.i16.i55.i.i = sub nuw nsw i64 64, %.6.i15.i54.i.i
  %.8.i17.i56.i.i = shl i64 %.63.lcssa138.i47.i.i, %.7.i16.i55.i.i
  %.9.i.i57.i.i = mul i64 %.8.i17.i56.i.i, 10
  %.10.i.i58.i.i = lshr i64 %.8.i17.i56.i.i, 8
  %.11.i.i59.i.i = add i64 %.9.i.i57.i.i, %.10.i.i58.i.i
  %.12.i.i60.i.i = and i64 %.11.i.i59.i.i, %const
  %.13.i.i61.i.i = mul i64 %.12.i.i60.i.i, %const335
  %.14.i.i62.i.i = lshr i64 %.11.i.i59.i.i, 16
  %.15.i.i63.i.i = and i64 %.14.i.i62.i.i, %const
  %.16.i.i64.i.i = mul i64 %.15.i.i63.i.i, %const334
  %.17.i.i65.i.i = add i64 %.16.i.i64.i.i, %.13.i.i61.i.i
  %.18.i.i66.i.i = lshr i64 %.17.i.i65.i.i, 32
  %.166.i67.i.i = mul i64 %.159.i53.i.i, %number.3.0.lcssa146.i46.i.i
  %.198.i68.i.i = add i64 %.166.i67.i.i, %.18.i.i66.i.i
  br label %B224.i69.i.i

B10.endif.endif.1.i76.i.i:
  %.9.i19.i77.i.i = mul i64 %.29.i.i37.i.i, 10
  %.10.i20.i78.i.i = lshr i64 %.29.i.i37.i.i, 8
  %.11.i21.i79.i.i = add i64 %.9.i19.i77.i.i, %.10.i20.i78.i.i
  %.12.i22.i80.i.i = and i64 %.11.i21.i79.i.i, %const
  %.13.i23.i81.i.i = mul i64 %.12.i22.i80.i.i, %const335
  %.14.i24.i82.i.i = lshr i64 %.11.i21.i79.i.i, 16
  %.15.i25.i83.i.i = and i64 %.14.i24.i82.i.i, %const
  %.16.i26.i84.i.i = mul i64 %.15.i25.i83.i.i, %const334
  %.17.i27.i85.i.i = add i64 %.16.i26.i84.i.i, %.13.i23.i81.i.i
  %.18.i28.i86.i.i = lshr i64 %.17.i27.i85.i.i, 32
  %.230.i.i.i = mul i64 %number.4.0.i.i.i, 100000000
  %.261.i.i.i = add i64 %.18.i28.i86.i.i, %.230.i.i.i
  %.266.i87.i.i = add nuw nsw i64 %.215.i.i.i, 9
  %.23.i1.i88.i.i = getelementptr i8, ptr %arg.data.4, i64 %.266.i87.i.i
  %.25.i2.i89.i.i = load i64, ptr %.23.i1.i88.i.i, align 1
  %.29.i3.i90.i.i = xor i64 %.25.i2.i89.i.i, %const336
  %.5.i7.i91.i.i = and i64 %.29.i3.i90.i.i, %const338
  %.6.i8.i92.i.i = add nuw i64 %.5.i7.i91.i.i, %const337
  %.7.i9.i93.i.i = or i64 %.6.i8.i92.i.i, %.25.i2.i89.i.i
  %.8.i10.i94.i.i = and i64 %.7.i9.i93.i.i, %const339
  %.108.not.1.i95.i.i = icmp eq i64 %.8.i10.i94.i.i, 0
  br i1 %.108.not.1.i95.i.i, label %B10.endif.endif.2.i96.i.i, label %B76.i43.i.i

B10.endif.endif.2.i96.i.i:
  %.9.i30.i97.i.i = mul i64 %.29.i3.i90.i.i, 10
  %.10.i31.i98.i.i = lshr i64 %.29.i3.i90.i.i, 8
  %.11.i32.i99.i.i = add i64 %.9.i30.i97.i.i, %.10.i31.i98.i.i
  %.12.i33.i100.i.i = and i64 %.11.i32.i99.i.i, %const
  %.13.i34.i101.i.i = mul i64 %.12.i33.i100.i.i, %const335
  %.14.i35.i102.i.i = lshr i64 %.11.i32.i99.i.i, 16
  %.15.i36.i103.i.i = and i64 %.14.i35.i102.i.i, %const
  %.16.i37.i104.i.i = mul i64 %.15.i36.i103.i.i, %const334
  %.17.i38.i105.i.i = add i64 %.16.i37.i104.i.i, %.13.i34.i101.i.i
  %.18.i39.i106.i.i = lshr i64 %.17.i38.i105.i.i, 32
  %.230.1.i107.i.i = mul i64 %.261.i.i.i, 100000000
  %.261.1.i108.i.i = add i64 %.18.i39.i106.i.i, %.230.1.i107.i.i
  %.266.1.i109.i.i = add nuw nsw i64 %.215.i.i.i, 17
  %.23.i4.i110.i.i = getelementptr i8, ptr %arg.data.4, i64 %.266.1.i109.i.i
  %.25.i5.i111.i.i = load i64, ptr %.23.i4.i110.i.i, align 1
  %.29.i6.i112.i.i = xor i64 %.25.i5.i111.i.i, %const336
  %.5.i11.i113.i.i = and i64 %.29.i6.i112.i.i, %const338
  %.6.i12.i114.i.i = add nuw i64 %.5.i11.i113.i.i, %const337
  %.7.i13.i115.i.i = or i64 %.6.i12.i114.i.i, %.25.i5.i111.i.i
  %.8.i14.i116.i.i = and i64 %.7.i13.i115.i.i, %const339
  %.108.not.2.i117.i.i = icmp eq i64 %.8.i14.i116.i.i, 0
  br i1 %.108.not.2.i117.i.i, label %B274.endif.2.i118.i.i, label %B76.i43.i.i

B274.endif.2.i118.i.i:
  %.9.i41.i119.i.i = mul i64 %.29.i6.i112.i.i, 10
  %.10.i42.i120.i.i = lshr i64 %.29.i6.i112.i.i, 8
  %.11.i43.i121.i.i = add i64 %.9.i41.i119.i.i, %.10.i42.i120.i.i
  %.12.i44.i122.i.i = and i64 %.11.i43.i121.i.i, %const
  %.13.i45.i123.i.i = mul i64 %.12.i44.i122.i.i, %const335
  %.14.i46.i124.i.i = lshr i64 %.11.i43.i121.i.i, 16
  %.15.i47.i125.i.i = and i64 %.14.i46.i124.i.i, %const
  %.16.i48.i126.i.i = mul i64 %.15.i47.i125.i.i, %const334
  %.17.i49.i127.i.i = add i64 %.16.i48.i126.i.i, %.13.i45.i123.i.i
  %.18.i50.i128.i.i = lshr i64 %.17.i49.i127.i.i, 32
  %.230.2.i129.i.i = mul i64 %.261.1.i108.i.i, 100000000
  %.261.2.i130.i.i = add i64 %.18.i50.i128.i.i, %.230.2.i129.i.i
  br label %B1190.endif.i.i

B1252.i.i:
  %.sink.i135.i.i = phi i64 [ %.215.i.i.i, %B1190.endif.i.i ], [ %.215.i.i.i, %B1150.i.i ], [ %.215.i.i.i, %B1056.endif.i.i ], [ -1, %B1056.endif.thread.i.i ]
  %data.sroa.0.0.i.i = phi ptr [ null, %B1190.endif.i.i ], [ %arg.data.0, %B1150.i.i ], [ %arg.data.0, %B1056.endif.i.i ], [ %arg.data.0, %B1056.endif.thread.i.i ]
  %powers.sroa.0.1.i.i = phi ptr [ null, %B1190.endif.i.i ], [ %arg.powers.0, %B1150.i.i ], [ %arg.powers.0, %B1056.endif.i.i ], [ %arg.powers.0, %B1056.endif.thread.i.i ]
  %number.5.0.i.i = phi i64 [ %.261.2.sink.i73.i.i, %B1190.endif.i.i ], [ %number.4.0.i.i.i, %B1150.i.i ], [ %number.4.0.i.i.i, %B1056.endif.i.i ], [ %.261.2.i.i.i, %B1056.endif.thread.i.i ]
  %end.2.0.i.i = phi i64 [ %.sink.i74.i.i, %B1190.endif.i.i ], [ %.215.i.i.i, %B1150.i.i ], [ %.215.i.i.i, %B1056.endif.i.i ], [ -1, %B1056.endif.thread.i.i ]
  %behind.2.0.i.i = phi i64 [ %.605.i.i, %B1190.endif.i.i ], [ 0, %B1150.i.i ], [ 0, %B1056.endif.i.i ], [ 0, %B1056.endif.thread.i.i ]
  %12 = add i64 %.sink.i135.i.i, %behind.2.0.i.i
  %13 = sub i64 %.189.i, %12
  %or.cond272.i.i = icmp ugt i64 %13, -20
  br i1 %or.cond272.i.i, label %B76.endif.endif.i, label %B420.i

B440.endif.i.i:
  %.168.i.i = tail call i64 @llvm.cttz.i64(i64 %.146.i.i, i1 true)
  %.171.i.i = lshr i64 %.168.i.i, 3
  %.172.i.i = add nsw i64 %.171.i.i, -1
  %.6.i8.i.i = shl nsw i64 %.172.i.i, 3
  %.7.i9.i.i = sub nsw i64 64, %.6.i8.i.i
  %.8.i10.i.i = shl i64 %.139.i.i, %.7.i9.i.i
  %.9.i.i.i = mul i64 %.8.i10.i.i, 10
  %.10.i.i.i = lshr i64 %.8.i10.i.i, 8
  %.11.i.i.i = add i64 %.9.i.i.i, %.10.i.i.i
  %.12.i.i.i = and i64 %.11.i.i.i, %const
  %.13.i.i.i = mul i64 %.12.i.i.i, %const335
  %.14.i.i.i = lshr i64 %.11.i.i.i, 16
  %.15.i.i.i = and i64 %.14.i.i.i, %const
  %.16.i.i.i = mul i64 %.15.i.i.i, %const334
  %.17.i.i.i = add i64 %.16.i.i.i, %.13.i.i.i
  %.18.i.i.i = lshr i64 %.17.i.i.i, 32
  %.202.i.i = sub nsw i64 %.172.i.i, %.103.i.i
  %.209.i.i = add i64 %.171.i.i, %.189.i
  br label %B76.endif.endif.i

B646.endif.endif.i.i:
  %.222.i.i = add nsw i64 %.189.i, 8
  %.23.i1.i.i = getelementptr i8, ptr %arg.data.4, i64 %.222.i.i
  %.25.i2.i.i = load i64, ptr %.23.i1.i.i, align 1
  %.29.i3.i.i = xor i64 %.25.i2.i.i, %const336
  %.5.i4.i.i = and i64 %.29.i3.i.i, %const338
  %.6.i5.i.i = add nuw i64 %.5.i4.i.i, %const337
  %.7.i6.i.i = or i64 %.6.i5.i.i, %.25.i2.i.i
  %.8.i7.i.i = and i64 %.7.i6.i.i, %const339
  %.283.not.i.i = icmp eq i64 %.8.i7.i.i, 0
  br i1 %.283.not.i.i, label %B1056.i.i, label %B718.endif.i.i

B718.endif.i.i:
  %.293.i.i = tail call i64 @llvm.cttz.i64(i64 %.8.i7.i.i, i1 true)
  %.296.i.i = lshr i64 %.293.i.i, 3
  %.11.i14.i.i = mul i64 %.139.i.i, 2561
  %.12.i15.i.i = and i64 %.11.i14.i.i, %const
  %.13.i16.i.i = mul i64 %.12.i15.i.i, %const335
  %.14.i17.i.i = lshr i64 %.11.i14.i.i, 16
  %.15.i18.i.i = and i64 %.14.i17.i.i, %const
  %.16.i19.i.i = mul i64 %.15.i18.i.i, %const334
  %.17.i20.i.i = add i64 %.16.i19.i.i, %.13.i16.i.i
  %.18.i21.i.i = lshr i64 %.17.i20.i.i, 32
  %.336.not.i.i = icmp eq i64 %.296.i.i, 0
  br i1 %.336.not.i.i, label %B924.i.i, label %B842.endif.i.i

B842.endif.i.i:
  %.364.i.i = getelementptr i64, ptr %arg.powers.4, i64 %.296.i.i
  %.365.i.i = load i64, ptr %.364.i.i, align 8
  %.6.i22.i.i = and i64 %.293.i.i, 56
  %.7.i23.i.i = sub nuw nsw i64 64, %.6.i22.i.i
  %.8.i24.i.i = shl i64 %.29.i3.i.i, %.7.i23.i.i
  %.9.i25.i.i = mul i64 %.8.i24.i.i, 10
  %.10.i26.i.i = lshr i64 %.8.i24.i.i, 8
  %.11.i27.i.i = add i64 %.9.i25.i.i, %.10.i26.i.i
  %.12.i28.i.i = and i64 %.11.i27.i.i, %const
  %.13.i29.i.i = mul i64 %.12.i28.i.i, %const335
  %.14.i30.i.i = lshr i64 %.11.i27.i.i, 16
  %.15.i31.i.i = and i64 %.14.i30.i.i, %const
  %.16.i32.i.i = mul i64 %.15.i31.i.i, %const334
  %.17.i33.i.i = add i64 %.16.i32.i.i, %.13.i29.i.i
  %.18.i34.i.i = lshr i64 %.17.i33.i.i, 32
  %.372.i.i = mul i64 %.365.i.i, %.18.i21.i.i
  %.404.i.i = add i64 %.372.i.i, %.18.i34.i.i
  br label %B924.i.i

B1056.endif.i.i:
  %powers.sroa.0.0.i.i.i = phi ptr [ null, %B142.endif.i.i.i ], [ %arg.powers.0, %B76.i.i.i ]
  %number.4.0.i.i.i = phi i64 [ %.198.i.i.i, %B142.endif.i.i.i ], [ %number.3.0.lcssa146.i.i.i, %B76.i.i.i ]
  %.215.i.i.i = add nsw i64 %.125.i.i.i, %at.2.0.lcssa150.i.i.i
  %.520.i.i = icmp sgt i64 %.215.i.i.i, -1
  br i1 %.520.i.i, label %B1150.i.i, label %B1252.i.i

B1190.endif.i.i:
  %.261.2.sink.i73.i.i = phi i64 [ %.261.2.i130.i.i, %B274.endif.2.i118.i.i ], [ %number.4.0.i71.i.i, %B224.i69.i.i ]
  %.sink.i74.i.i = phi i64 [ -1, %B274.endif.2.i118.i.i ], [ %.215.i72.i.i, %B224.i69.i.i ]
  %.605.i.i = sub nsw i64 %.sink.i74.i.i, %.550.i.i
  br label %B1252.i.i

B76.endif.endif.i:
  %.18.i.sink.i.i = phi i64 [ %.18.i.i.i, %B440.endif.i.i ], [ %number.4.0.i.i, %B924.i.i ], [ %number.5.0.i.i, %B1252.i.i ]
  %.202.sink.i.i = phi i64 [ %.202.i.i, %B440.endif.i.i ], [ %.420.i.i, %B924.i.i ], [ %behind.2.0.i.i, %B1252.i.i ]
  %.209.sink.i.i = phi i64 [ %.209.i.i, %B440.endif.i.i ], [ %.430.i.i, %B924.i.i ], [ %end.2.0.i.i, %B1252.i.i ]
  %.248.i = icmp sgt i64 %.209.sink.i.i, -1
  br i1 %.248.i, label %B264.i, label %B420.i

B364.endif.i:
  %.261.2.sink.i.i.i = phi i64 [ %.261.2.i.i112.i, %B274.endif.2.i.i.i ], [ %number.4.0.i.i55.i, %B224.i.i.i ]
  %.sink.i.i.i = phi i64 [ -1, %B274.endif.2.i.i.i ], [ %.215.i.i56.i, %B224.i.i.i ]
  %14 = icmp eq i8 %.44.i.i, 45
  %.152.i.i = icmp slt i64 %.90.i.i, %.sink.i.i.i
  %.159.i.i = add nuw nsw i64 %.90.i.i, 3
  %.163.i.i = icmp sle i64 %.sink.i.i.i, %.159.i.i
  %or.cond.i57.i = select i1 %.152.i.i, i1 %.163.i.i, i1 false
  %.202.i58.i = sub i64 0, %.261.2.sink.i.i.i
  %spec.select84.i.i = select i1 %14, i64 %.202.i58.i, i64 %.261.2.sink.i.i.i
  %.sink1.i.i = select i1 %or.cond.i57.i, i64 %spec.select84.i.i, i64 0
  %.sink.i.i = select i1 %or.cond.i57.i, i64 %.sink.i.i.i, i64 -1
  br label %B420.i

B656.endif.i:
  %at.3.1.i16.i = phi i64 [ %at.4.1.i, %B80.i5.i ], [ %at.4.1.i, %B642.i ], [ %lsr.iv324, %B92.i8.i ], [ %lsr.iv324, %B178.i13.i ]
  %15 = icmp eq i8 %.179.i, 45
  %.561.i = fneg double %"$phi642.0.2.0.i"
  %spec.select.i = select i1 %15, double %.561.i, double %"$phi642.0.2.0.i"
  br label %B260.endif.us.us

B260.endif.us.us:
  %spec.select.sink.i = phi double [ %spec.select.i, %B656.endif.i ], [ 0x7FF8000000000000, %B48.i ]
  %at.3.1.i16.sink.i = phi i64 [ %at.3.1.i16.i, %B656.endif.i ], [ %at.8.2721.us.us, %B48.i ]
  %.577.us.us = icmp slt i64 %at.3.1.i16.sink.i, 0
  br i1 %.577.us.us, label %B320.split.us, label %B326.us.us

B326.us.us:
  %.666.us.us = icmp slt i64 %column.2.2722.us.us, 0
  %.667.us.us = select i1 %.666.us.us, i64 %arg.columns.5.0, i64 0
  %.668.us.us = add i64 %.667.us.us, %column.2.2722.us.us
  %.688.us.us = mul i64 %.668.us.us, %arg.columns.5.1
  %gep726.us.us = getelementptr double, ptr %invariant.gep725.us.us, i64 %.688.us.us
  store double %spec.select.sink.i, ptr %gep726.us.us, align 8
  %.699.us.us = add nsw i64 %column.2.2722.us.us, 1
  br label %B386.us.us

B352.us.us:
  %.24.i.i140 = getelementptr i8, ptr %arg.data.4, i64 %at.8.2721.us.us
  %.25.i.i141 = load i8, ptr %.24.i.i140, align 1
  %16 = zext i8 %.25.i.i141 to i32
  %.26.i.i142 = zext i8 %.25.i.i141 to i64
  %.34.i.i143 = icmp ne i64 %arg.delimiter, %.26.i.i142
  %17 = freeze i1 %.34.i.i143
  br i1 %17, label %switch.early.test.i144, label %B386.us.us

switch.early.test.i144:
  switch i32 %16, label %B38.endif.endif.i.preheader [
    i32 13, label %B386.us.us
    i32 10, label %B386.us.us
  ]

B38.endif.endif.i.preheader:
  %18 = add i64 %at.8.2721.us.us, 1
  br label %B38.endif.endif.i

B38.endif.endif.i:
  %lsr.iv327 = phi i64 [ %18, %B38.endif.endif.i.preheader ], [ %lsr.iv.next328, %switch.early.test13.i ]
  %scevgep329 = getelementptr i8, ptr %arg.data.4, i64 %lsr.iv327
  %.25.i2.i = load i8, ptr %scevgep329, align 1
  %19 = zext i8 %.25.i2.i to i32
  %.26.i3.i = zext i8 %.25.i2.i to i64
  %.34.i4.i147 = icmp ne i64 %arg.delimiter, %.26.i3.i
  %20 = freeze i1 %.34.i4.i147
  br i1 %20, label %switch.early.test13.i, label %B386.us.us

switch.early.test13.i:
  %lsr.iv.next328 = add i64 %lsr.iv327, 1
  switch i32 %19, label %B38.endif.endif.i [
    i32 13, label %B386.us.us
    i32 10, label %B386.us.us
  ]

B386.us.us:
  %at.10.3.us.us = phi i64 [ %at.3.1.i16.sink.i, %B326.us.us ], [ %at.8.2721.us.us, %switch.early.test.i144 ], [ %at.8.2721.us.us, %switch.early.test.i144 ], [ %at.8.2721.us.us, %B352.us.us ], [ %lsr.iv327, %B38.endif.endif.i ], [ %lsr.iv327, %switch.early.test13.i ], [ %lsr.iv327, %switch.early.test13.i ]
  %column.3.3.us.us = phi i64 [ %.699.us.us, %B326.us.us ], [ %column.2.2722.us.us, %switch.early.test.i144 ], [ %column.2.2722.us.us, %switch.early.test.i144 ], [ %column.2.2722.us.us, %B352.us.us ], [ %column.2.2722.us.us, %B38.endif.endif.i ], [ %column.2.2722.us.us, %switch.early.test13.i ], [ %column.2.2722.us.us, %switch.early.test13.i ]
  %.752.us.us = icmp slt i64 %.451714719.us.us, %.143
  br i1 %.752.us.us, label %B398.us.us, label %B454.us.us

B398.us.us:
  %.766.us.us = getelementptr i8, ptr %arg.data.4, i64 %at.10.3.us.us
  %.767.us.us = load i8, ptr %.766.us.us, align 1
  %.768.us.us = zext i8 %.767.us.us to i64
  %.770.not.us.us = icmp eq i64 %arg.delimiter, %.768.us.us
  br i1 %.770.not.us.us, label %B444.us.us, label %B438.split.us

B444.us.us:
  %.823.us.us = add nsw i64 %at.10.3.us.us, 1
  br label %B454.us.us

B454.us.us:
  %at.9.3.us.us = phi i64 [ %.823.us.us, %B444.us.us ], [ %at.10.3.us.us, %B386.us.us ]
  %exitcond.not = icmp eq i64 %arg.wanted.5.0.fr, %.458.us.us
  br i1 %exitcond.not, label %B240.B456_crit_edge.us.us, label %B242.us.us

B240.B456_crit_edge.us.us:
  %.29.i1 = getelementptr i8, ptr %arg.data.4, i64 %at.9.3.us.us
  %.30.i2 = load i8, ptr %.29.i1, align 1
  %21 = zext i8 %.30.i2 to i32
  switch i32 %21, label %B500.sink.split [
    i32 10, label %B54.i13
    i32 13, label %B114.i3
  ]

B54.i13:
  br label %B456.endif.us.us

B114.i3:
  %sunkaddr349 = getelementptr i8, ptr %arg.data.4, i64 %at.9.3.us.us
  %sunkaddr350 = getelementptr i8, ptr %sunkaddr349, i64 1
  %.68.i6 = load i8, ptr %sunkaddr350, align 1
  %.75.i7 = icmp eq i8 %.68.i6, 10
  br i1 %.75.i7, label %B456.endif.us.us, label %B500.sink.split

B80.loopexit.split.us.us:
  %.sink274 = phi i64 [ 1, %B92.endif.us.us.thread ], [ 2, %B114.i ]
  %.78.i = add nuw nsw i64 %at.7.1.us.us, %.sink274
  %.200.us = icmp slt i64 %.78.i, %arg.stop
  br i1 %.200.us, label %B92.us.us, label %B526

B80.loopexit.split:
  %.228.lcssa = phi i64 [ %.78.i27, %B92.endif.peel ], [ %.40.i29, %B92.endif.peel.thread ], [ %.78.i57, %B92.endif ]
  %row.2.1.lcssa952 = phi i64 [ %row.3.0805, %B92.endif.peel ], [ %row.3.0805, %B92.endif.peel.thread ], [ %row.2.1, %B92.endif ]
  %.200 = icmp slt i64 %.228.lcssa, %arg.stop
  br i1 %.200, label %B92.preheader, label %B526

B92.preheader:
  %at.6.0806 = phi i64 [ %.228.lcssa, %B80.loopexit.split ], [ 0, %B92.preheader.preheader ]
  %row.3.0805 = phi i64 [ %row.2.1.lcssa952, %B80.loopexit.split ], [ %.132, %B92.preheader.preheader ]
  %.29.i16 = getelementptr i8, ptr %arg.data.4, i64 %at.6.0806
  %.30.i17 = load i8, ptr %.29.i16, align 1
  %22 = zext i8 %.30.i17 to i32
  switch i32 %22, label %B92.endif.peel.thread129 [
    i32 10, label %B92.endif.peel.thread
    i32 13, label %B114.i18
  ]

B92.endif.peel.thread:
  %.40.i29 = add nuw nsw i64 %at.6.0806, 1
  br label %B80.loopexit.split

B114.i18:
  %sunkaddr351 = getelementptr i8, ptr %arg.data.4, i64 %at.6.0806
  %sunkaddr352 = getelementptr i8, ptr %sunkaddr351, i64 1
  %.68.i21 = load i8, ptr %sunkaddr352, align 1
  %.75.i22 = icmp eq i8 %.68.i21, 10
  br i1 %.75.i22, label %B92.endif.peel, label %B92.endif.peel.thread129

B92.endif.peel.thread129:
  %data.sroa.0.0.i24 = phi ptr [ null, %B114.i18 ], [ %arg.data.0, %B92.preheader ]
  %.277.peel = icmp eq i64 %row.3.0805, %arg.columns.5.1
  br i1 %.277.peel, label %B176, label %B200.endif.peel

B92.endif.peel:
  %.78.i27 = add nuw nsw i64 %at.6.0806, 2
  br label %B80.loopexit.split

B200.endif.peel:
  %sunkaddr353 = getelementptr i8, ptr %arg.data.4, i64 %at.6.0806
  %.30.i32 = load i8, ptr %sunkaddr353, align 1
  %23 = zext i8 %.30.i32 to i32
  switch i32 %23, label %B500.sink.split [
    i32 10, label %B54.i43
    i32 13, label %B114.i33
  ]

B54.i43:
  br label %B504.peel

B114.i33:
  %sunkaddr354 = getelementptr i8, ptr %arg.data.4, i64 %at.6.0806
  %sunkaddr355 = getelementptr i8, ptr %sunkaddr354, i64 1
  %.68.i36 = load i8, ptr %sunkaddr355, align 1
  %.75.i37 = icmp eq i8 %.68.i36, 10
  br i1 %.75.i37, label %B504.peel, label %B500.sink.split

B504.peel:
  %.sink237 = phi i64 [ 1, %B54.i43 ], [ 2, %B114.i33 ]
  %.40.i44 = add nuw nsw i64 %at.6.0806, %.sink237
  %.935.peel = add nsw i64 %row.3.0805, 1
  %.942.peel = icmp slt i64 %.40.i44, %arg.stop
  br i1 %.942.peel, label %B92.preheader314, label %B526

B92.preheader314:
  br label %B92

B320.split.us:
  br label %common.ret

B438.split.us:
  br label %common.ret

B92:
  %row.2.1 = phi i64 [ %.935, %B504 ], [ %.935.peel, %B92.preheader314 ]
  %at.7.1 = phi i64 [ %.78.i72, %B504 ], [ %.40.i44, %B92.preheader314 ]
  %.29.i46 = getelementptr i8, ptr %arg.data.4, i64 %at.7.1
  %.30.i47 = load i8, ptr %.29.i46, align 1
  %24 = zext i8 %.30.i47 to i32
  switch i32 %24, label %B92.endif.thread [
    i32 10, label %B54.i58
    i32 13, label %B114.i48
  ]

B54.i58:
  br label %B92.endif

B114.i48:
  %sunkaddr356 = getelementptr i8, ptr %arg.data.4, i64 %at.7.1
  %sunkaddr357 = getelementptr i8, ptr %sunkaddr356, i64 1
  %.68.i51 = load i8, ptr %sunkaddr357, align 1
  %.75.i52 = icmp eq i8 %.68.i51, 10
  br i1 %.75.i52, label %B92.endif, label %B92.endif.thread

B92.endif.thread:
  %data.sroa.0.0.i54 = phi ptr [ null, %B114.i48 ], [ %arg.data.0, %B92 ]
  br label %B142

B142:
  %.277 = icmp eq i64 %arg.columns.5.1, %row.2.1
  br i1 %.277, label %B176, label %B200.endif

common.ret:
  %arg.found.0.sink = phi ptr [ %arg.found.0, %B526 ], [ %arg.columns.0, %B500 ], [ %arg.columns.0, %B438.split.us ], [ %arg.columns.0, %B320.split.us ], [ %arg.found.0, %B176 ]
  store ptr null, ptr %retptr, align 8
  ret i32 0

B176:
  store i64 -2, ptr %arg.found.4, align 8
  br label %common.ret

B500.sink.split:
  %data.sroa.0.0.i9.sink = phi ptr [ %arg.data.0, %B200.endif ], [ %arg.data.0, %B240.B456_crit_edge.us.us ], [ null, %B114.i3 ], [ null, %B114.i63 ], [ null, %B114.i33 ], [ %arg.data.0, %B200.endif.peel ]
  br label %B500

B500:
  br label %common.ret

B504:
  %.935 = add i64 %row.2.1, 1
  %.942 = icmp slt i64 %.78.i72, %arg.stop
  br i1 %.942, label %B92, label %B526

B526:
  %row.4.2 = phi i64 [ %.132, %B0 ], [ %.935, %B504 ], [ %row.2.1.us.us.ph, %B80.loopexit.split.us.us ], [ %.935.us.us, %B504.us.us ], [ %.935.peel, %B504.peel ], [ %row.2.1.lcssa952, %B80.loopexit.split ]
  store i64 %row.4.2, ptr %arg.found.4, align 8
  br label %common.ret

B92.endif:
  %.sink238 = phi i64 [ 1, %B54.i58 ], [ 2, %B114.i48 ]
  %.78.i57 = add nsw i64 %at.7.1, %.sink238
  %.244 = icmp sgt i64 %.78.i57, -1
  br i1 %.244, label %B80.loopexit.split, label %B142

B200.endif:
  %sunkaddr358 = getelementptr i8, ptr %arg.data.4, i64 %at.7.1
  %.30.i62 = load i8, ptr %sunkaddr358, align 1
  %25 = zext i8 %.30.i62 to i32
  switch i32 %25, label %B500.sink.split [
    i32 10, label %B54.i73
    i32 13, label %B114.i63
  ]

B54.i73:
  br label %B456.endif

B114.i63:
  %sunkaddr359 = getelementptr i8, ptr %arg.data.4, i64 %at.7.1
  %sunkaddr360 = getelementptr i8, ptr %sunkaddr359, i64 1
  %.68.i66 = load i8, ptr %sunkaddr360, align 1
  %.75.i67 = icmp eq i8 %.68.i66, 10
  br i1 %.75.i67, label %B456.endif, label %B500.sink.split

B456.endif:
  %.sink239 = phi i64 [ 1, %B54.i73 ], [ 2, %B114.i63 ]
  %.78.i72 = add nsw i64 %at.7.1, %.sink239
  %.883 = icmp slt i64 %.78.i72, 0
  br i1 %.883, label %B500, label %B504
}

declare i64 @llvm.cttz.i64(i64, i1 immarg)
