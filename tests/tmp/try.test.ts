import { test } from "vitest";
import { calculated, plain, workbook } from "../engine/workbooks.js";
const data = { A1: 1, A2: 2, A3: 3, B1: 10, B2: 20, B3: 30, C1: "B2", C2: "R2C2", D1: "x" } as const;
const forms = [
 "_xlfn.LAMBDA(_xlpm.a,GYLE.DOUBLE(_xlpm.a))(A2)","_xlfn.LAMBDA(_xlpm.a,_xlpm.a+1)(A2)","(_xlfn.LAMBDA(_xlpm.a,_xlpm.a+1))(A2)","_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.x,_xlpm.x+1),_xlpm.f(3))","_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x)),_xlpm.f(3))","_xlfn.LET(_xlpm.f,(_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x))),_xlpm.f(3))",
 "_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x)+_xlfn.LAMBDA(_xlpm.x,_xlpm.x*3)(_xlpm.x+1))(A2)","1+_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x))(A2)*2","SUM(_xlfn.LAMBDA(_xlpm.x,GYLE.DOUBLE(_xlpm.x))(A1:A3))","_xlfn.LAMBDA(_xlpm.x,SUM(_xlpm.x))(A1:A3)","_xlfn.LAMBDA(GYLE.DOUBLE(A2))()","_xlfn.LET(_xlpm.x,A1:A3,SUM(_xlpm.x))","_xlfn.LET(_xlpm.x,GYLE.DOUBLE(A1:A3),SUM(_xlpm.x))","_xlfn.LET(_xlpm.x,A1:A3,ROWS(_xlpm.x))","_xlfn.LET(_xlpm.a,1,_xlpm.b,_xlpm.a+1,_xlfn.LET(_xlpm.a,5,_xlpm.a+_xlpm.b))",
];
test("try", () => {
  for (const f of forms) {
    let r: string;
    try {
    const a = calculated(workbook({ S: { ...data, F2: plain(f), H2: plain("GYLE.IDENTITY(F2)") } }, { names: [
      { name: "TWICE", refersTo: "_xlfn.LAMBDA(_xlpm.x,_xldudf_GYLE_DOUBLE(_xlpm.x))" },
      { name: "REC", refersTo: "_xlfn.LAMBDA(_xlpm.x,IF(_xlpm.x<1,0,REC(_xlpm.x-1)+GYLE.DOUBLE(1)))" },
    ]}));
    r = JSON.stringify([a.at("F2"), a.at("H2"), a.notes.map(n=>n.message), a.errors.map(e=>e.message)]);
    } catch (e) { r = "THROWS " + String(e); }
    console.log(f.padEnd(60), r);
  }
});
